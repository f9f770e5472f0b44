// Cures: every one that is offered for a design that stops is pressed in turn; the check is then OK, no other is worse, and
// one step back brings the design before it. Over random designs: tests/cures_tried.rs.

import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { openSite, PHONE, SIZES, until, visit } from './page.mjs';

/** How long a search may take on a slow machine, in milliseconds. */
const LONGEST = 240_000;
/** The example with one value of its whole piece changed: each stops or is tight for another reason. */
const FAILING = [
  ['Tilt', '11'], ['Tilt', '1'], ['Wall', '1.5'], ['Neck', '9'],
  ['Side of the blank', '54'], ['Bore', '62'], ['Depth', '60'], ['Axes cross at', '60'], ['Length', '250'],
  ['Thickest', '60'],
];
const RANK = { OK: 0, Tight: 1, Stop: 2 };

let site;
before(async () => { site = await openSite(); });
after(() => site.close());

/** The worst verdict of every check, by name, in the order of the list. */
async function verdicts(page) {
  await page.untilFigured();
  const read = await page.tab.locator('.checks .check h3').evaluateAll((all) => all.map((it) => {
    const verdict = it.querySelector('.verdict-word').textContent.trim();
    return [it.firstChild.textContent.trim(), verdict];
  }));
  const worst = new Map();
  for (const [name, verdict] of read) {
    assert.ok(verdict in RANK, `${name}: ${verdict}`);
    if (!worst.has(name) || RANK[verdict] > RANK[worst.get(name)]) worst.set(name, verdict);
  }
  return worst;
}

/** The buttons that do what cures a check, once they were looked for. */
async function cures(page, name) {
  const check = page.tab.locator('.checks .check').filter({ has: page.tab.getByRole('heading', { name: new RegExp(`^${name}\\b`) }) }).first();
  await check.getByRole('button', { name: /^Find a cure/ }).click();
  const offers = check.getByRole('button', { name: 'Do it' });
  await offers.first().or(check.getByText('No value cures it')).waitFor({ timeout: LONGEST });
  return offers;
}

for (const [label, value, size] of FAILING.flatMap((failing) => SIZES.map((size) => [...failing, size]))) {
  test(`every cure cures, ${size.name}: ${label} ${value}`, async (t) => {
    const { visitor, page } = await visit(t, site, { size });
    await page.openGroup('Whole piece');
    await page.typeValue(label, value);
    await page.untilFigured();
    if (size === PHONE) await page.openGroup('Checks');
    const failing = await verdicts(page);
    const [name, verdict] = [...failing].find(([, it]) => it !== 'OK') ?? [];
    assert.ok(name, 'it stops or is tight');
    const count = await (await cures(page, name)).count();
    t.diagnostic(`${name} (${verdict}): ${count} cures`);
    for (let which = 0; which < count; which += 1) {
      const offers = which === 0 ? page.tab.locator('.checks .check .offer button') : await cures(page, name);
      const words = await offers.nth(which).locator('xpath=preceding-sibling::p').innerText();
      await offers.nth(which).click();
      await until(async () => (await page.tab.locator('.checks .offer').count()) === 0, () => 'it is not done');
      const cured = await verdicts(page);
      assert.equal(cured.get(name), 'OK', words);
      for (const [other, now] of cured) assert.ok(RANK[now] <= RANK[failing.get(other) ?? 'OK'], `${words}: ${other} is ${now}`);
      await page.button('Undo').click();
      await until(async () => JSON.stringify([...await verdicts(page)]) === JSON.stringify([...failing]), () => `${words}: not undone`);
    }
    assert.equal(await page.notices().locator('.notice').count(), 0, 'none is refused');
    assert.deepEqual(visitor.problems, []);
  });
}
