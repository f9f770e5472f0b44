// A sound design of so much work that it takes long: the page stays free, shows how far the work is, and stops when asked.

import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { newVisitor, openSite, SIZES, until } from './page.mjs';

/** So many hollows that run into each other take seconds on any machine, and are soon enough done for a test. */
const HOLLOWS = 25;
const AXES = 11;
const LONG_MS = 300_000;

let site;
before(async () => { site = await openSite(); });
after(() => site.close());

for (const size of SIZES) {
  test(`a heavy design shows how far its figures are, stops when asked, and goes on, ${size.name}`, async (t) => {
    const visitor = await newVisitor(site, { size });
    t.after(() => visitor.close());
    const page = await visitor.newTab();
    await page.untilSaved('skewline-design');
    await openHeavy(page);
    const bar = page.tab.getByRole('progressbar', { name: 'Working out figures and checks' });
    await bar.waitFor();
    assert.ok(await inView(page, bar), 'the bar is in view');
    const pill = page.tab.locator('.figures-line .pill');
    assert.doesNotMatch(await pill.innerText(), /OK/);

    const took = await tapWhileItWorks(page);
    t.diagnostic(`a tap is answered after ${took.map((ms) => Math.round(ms)).join(', ')} ms`);
    const share = () => bar.evaluate((it) => it.value);
    const before = await share();
    await until(async () => (await share()) > before, () => 'the bar does not move', LONG_MS);

    await page.button('Stop').click();
    await page.tab.getByText('The figures and checks of this design are not worked out.').first().waitFor();
    assert.equal(await bar.count(), 0);
    assert.match(await pill.innerText(), /Not worked out/);
    assert.doesNotMatch(await pill.innerText(), /OK/);
    await pill.click();
    const checks = page.tab.locator('.checks .check');
    assert.deepEqual(await checks.locator('h3').allInnerTexts(), ['Not worked out']);
    assert.deepEqual(await page.accessibilityFaults(), []);

    // A change begins anew.
    await page.openGroup('Hollow');
    assert.equal(await page.tab.getByText('How far it may go: working it out').count(), 0, 'nothing is coming');
    await page.slider('Diameter').first().press('ArrowRight');
    await bar.waitFor();
    await page.button('Stop').click();
    await page.button('Go on').click();
    await bar.waitFor();
    await page.tab.locator('.app[data-figures=here]').waitFor({ timeout: LONG_MS });
    await until(async () => !/Not worked out|checking/.test(await pill.innerText()), () => pill.innerText(), LONG_MS);
    assert.match(await page.figure('Thinnest wall'), /\d|broken/);
    assert.deepEqual(visitor.problems, []);
  });
}

test('a design of more points than are worked out opens, is drawn, and says what is left out', async (t) => {
  const visitor = await newVisitor(site);
  t.after(() => visitor.close());
  const page = await visitor.newTab();
  await page.untilSaved('skewline-design');
  const node = (i, from) => ({ at_mm: from + i * 0.25, diameter_mm: 40 + (i % 2) });
  const pass = (i) => ({ pass: { name: `pass ${i}`, axis: 'A', from_mm: 4 * i, to_mm: 4 * i + 49.75, profile: { drawn: { nodes: Array.from({ length: 200 }, (_, j) => node(j, 4 * i)) } } } });
  await bringInAndOpen(page, (design) => ({ ...design, axes: [], cuts: Array.from({ length: 8 }, (_, i) => pass(i)) }));
  await page.tab.getByText('have 1600 points in all').first().waitFor();
  assert.match(await page.tab.locator('.figures-line .pill').innerText(), /Not worked out/);
  assert.equal(await page.button('Go on').count(), 0);
  await page.openGroup('Outside');
  await page.tab.locator('.value-row').first().waitFor();
  // Longer than the page waits after a change.
  await page.tab.waitForTimeout(1000);
  assert.equal(await page.tab.getByText('How far it may go: working it out').count(), 0, 'nothing is coming');
  assert.deepEqual(visitor.problems, []);
});

/** Taps that change what is shown, while the work goes on: how long until each is on the screen, in ms. */
async function tapWhileItWorks(page) {
  const took = [];
  for (const group of ['Wood', 'Handle', 'Hollow', 'Handle', 'Wood']) {
    took.push(await page.tab.evaluate((name) => new Promise((resolve) => {
      const button = [...document.querySelectorAll('nav button, [role=tab], .groups button, button')].find((it) => it.textContent.trim() === name);
      const from = performance.now();
      button.click();
      requestAnimationFrame(() => setTimeout(() => resolve(performance.now() - from)));
    }), group));
  }
  return took;
}

async function openHeavy(page) {
  const hollow = (i) => ({ hollow: {
    axis: String.fromCharCode(66 + i % AXES), mouth_mm: -41,
    shape: { round_ended: { diameter_mm: 24 + i % 7, depth_mm: 22 + i % 5, rounding_mm: 8 } },
  } });
  await bringInAndOpen(page, (design) => ({
    ...design,
    blank: { section: { square: { side_mm: 80 } }, length_mm: 400 },
    axes: Array.from({ length: AXES }, (_, i) => ({ across: { station_mm: 20 + 30 * i, from_deg: 13 * i } })),
    cuts: Array.from({ length: HOLLOWS }, (_, i) => hollow(i)),
  }));
}

/** Brings in the example as it is changed, under a name of its own, and opens it. */
async function bringInAndOpen(page, change) {
  await page.goTo('Shelf');
  const [name] = await page.namesOnShelf();
  const { text } = await page.fileFrom(page.button(`Save to a file: ${name}`));
  const saved = JSON.parse(text);
  saved.design = { ...change(saved.design), name: 'Heavy' };
  delete saved.id;
  await page.bringIn('heavy.json', JSON.stringify(saved));
  await page.tab.getByRole('button', { name: /^Open .*Heavy/ }).first().click();
  await page.tab.locator('.figures-line').waitFor();
}

async function inView(page, locator) {
  const box = await locator.boundingBox();
  return box !== null && box.y >= 0 && box.y + box.height <= page.size.height;
}
