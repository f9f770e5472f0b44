// Every kind of piece from want to paper: asked for or begun with, varied and undone, cured, planned step by step, printed,
// kept and reloaded.

import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import { readPdf } from './pdf.mjs';
import { openSite, PHONE, SIZES, until, visit } from './page.mjs';

/** How long a search may take on a slow machine, in milliseconds. */
const LONGEST = 240_000;

/** What is asked for (lines of the form, after the kind), or the example it begins with; a choice that is varied; a choice
 * that makes it fail, and the check that then says so; steps that its plan has; templates that it prints. */
const KINDS = [
  {
    name: 'a round-bowl scoop',
    asked: ['Round-bowl scoop, in wooden jaws', [['It should hold', '60'], ['Counted in', 'mL'], ['Tilt of the handle', '6'], ['Length of the handle', '100']]],
    figure: ['Holds', '60 mL'],
    vary: ['Floor', '9'],
    fail: ['Height of the opening', '0', 'Jaws'],
    steps: ['Make the wooden jaws: quarters', 'Make the wooden jaws: recess', 'Make the wooden jaws: slot', 'Hollow across on axis B'],
    templates: ['Wooden jaws, axis B: face', 'Wooden jaws, axis B: card of the recess', 'Gauge: ball'],
  },
  {
    name: 'a ladle',
    starter: 'Ladle',
    figure: ['Handle', '11'],
    vary: ['Floor', '8'],
    fail: ['Height of the opening', '0.05', 'Jaws'],
    steps: ['Make the wooden jaws: recess', 'Hollow across on axis B'],
    templates: ['Wooden jaws, axis B: face', 'Gauge: bowl'],
  },
  {
    name: 'an oval-bowl scoop',
    starter: 'Oval-bowl scoop',
    // No jaws are planned for a bowl that is not round, and the check of them says so.
    pill: 'tight',
    figure: ['Handle', '5'],
    vary: ['Floor', '8'],
    fail: ['Neck', '10', 'Strength while turning'],
    steps: ['Hollow across on axis B', 'Hollow across on axis C'],
    templates: ['Gauge: bowl'],
  },
  {
    name: 'a spreader',
    asked: ['Spreader or stirrer', [['Length of the whole piece', '160'], ['Wood', 'Sugar (hard) maple']]],
    figure: ['Handle', 'straight'],
    vary: ['Length', '64'],
    fail: ['Side of the blank', '35', 'Drive centre'],
    steps: ['Turn the first face', 'Turn the second face'],
    templates: ['Gauge: outline'],
  },
  {
    name: 'a spindle of three sides',
    starter: 'Three-sided spindle',
    figure: ['Wood', '62 sq'],
    vary: ['Length', '150'],
    fail: ['Side of the blank', '45', 'Drive centre'],
    steps: ['Turn the first side', 'Turn the second side', 'Turn the third side'],
    templates: ['Gauge: outline'],
  },
  {
    name: 'a grooved head',
    starter: 'Grooved head',
    figure: ['Handle', 'straight'],
    vary: ['Length', '50'],
    fail: ['Side of the blank', '30', 'Flats'],
    steps: ['Turn the outline'],
    templates: ['Gauge: outline'],
  },
];

let site;
before(async () => { site = await openSite(); });
after(() => site.close());

for (const [kind, size] of KINDS.flatMap((kind) => SIZES.map((size) => [kind, size]))) {
  describe(`${kind.name}, ${size.name}`, () => {
    test('is made, varied, cured, planned, printed, kept and reloaded', async (t) => {
      const { visitor, page } = await visit(t, site, { size });
      const good = async () => {
        await page.untilFigured();
        await page.tab.locator(`.pill.${kind.pill ?? 'good'}`).waitFor({ timeout: LONGEST });
      };
      await page.goTo('Shelf');
      await (kind.asked ? ask(page, kind.asked) : page.button(kind.starter).click());
      await page.untilFigure(...kind.figure);
      assert.equal(await page.tab.getByRole('region', { name: 'Welcome' }).count(), 0, 'nothing says that it is the example');
      await good();

      await page.openGroup('Whole piece');
      const title = await page.tab.locator('.whole-head h2').innerText();
      assert.equal(await page.button('Change what it is for').count(), kind.asked ? 1 : 0, title);
      const value = (label) => page.tab.getByRole('textbox', { name: new RegExp(`^${label}`) }).first();
      const start = await value(kind.vary[0]).inputValue();
      await page.typeValue(...kind.vary);
      await page.untilFigured();
      assert.notEqual(await value(kind.vary[0]).inputValue(), start);
      await page.button('Undo').click();
      await until(async () => (await value(kind.vary[0]).inputValue()) === start, async () => 'one step back brings it back');

      await cured(page, size, kind.fail);
      await good();

      await page.goTo('Steps');
      const shown = await page.tab.locator('main').innerText();
      for (const step of kind.steps) assert.ok(shown.includes(step), `${step} is a step`);
      for (const template of kind.templates) assert.ok(shown.includes(template), `${template} is a template`);
      await printed(page, kind.templates);
      assert.deepEqual(await page.accessibilityFaults(), []);

      await page.untilSaved(kind.asked ? '"wood"' : kind.starter);
      await page.reload();
      await page.goTo('Design');
      await page.openGroup('Whole piece');
      assert.equal(await page.tab.locator('.whole-head h2').innerText(), title);
      await good();
      assert.deepEqual(visitor.problems, []);
    });
  });
}

/** Says what is wanted, and opens what is found. */
async function ask(page, [kind, lines]) {
  await page.button('New').click();
  const line = (label) => page.tab.getByLabel(new RegExp(`^${label}`)).first();
  await line('What it is').selectOption(kind);
  for (const [label, text] of lines) {
    const it = line(label);
    await it.waitFor();
    const isList = await it.evaluate((element) => element.tagName === 'SELECT');
    await (isList ? it.selectOption(text) : it.fill(text));
  }
  await page.button('Find a piece').click();
  await page.tab.getByText('This one works: every check is OK').waitFor({ timeout: LONGEST });
  await page.button('Open it').click();
}

/** Makes it fail by a choice, presses the first cure that is offered for the check, and leaves it so. */
async function cured(page, size, [label, text, check]) {
  await page.typeValue(label, text);
  await page.untilFigured();
  if (size === PHONE) await page.openGroup('Checks');
  const failing = page.tab.locator('.checks .check').filter({ has: page.tab.getByRole('heading', { name: new RegExp(`^${check}\\b`) }) }).first();
  const verdict = () => failing.locator('.verdict-word').innerText();
  await until(async () => (await verdict()) !== 'OK', async () => `${check} is ${await verdict()}`);
  await failing.getByRole('button', { name: /^Find a cure/ }).click();
  const offer = failing.getByRole('button', { name: 'Do it' }).first();
  await offer.waitFor({ timeout: LONGEST });
  await offer.click();
  await page.untilFigured();
  await until(async () => (await verdict()) === 'OK', async () => `${check} is ${await verdict()} after its cure`);
  // What else a cure may leave tight is set right by going back to where it was.
  await page.button('Undo').click();
  await page.button('Undo').click();
}

/** Prints every template: each has its words on the pages. */
async function printed(page, templates) {
  await page.tab.evaluate(() => { window.prints = 0; window.print = () => { window.prints += 1; }; });
  await page.button('Print every template').click();
  await until(async () => (await page.tab.evaluate(() => window.prints)) > 0, async () => 'nothing is printed');
  const pages = await readPdf(await page.tab.pdf({ preferCSSPageSize: true }));
  const words = pages.flatMap((it) => it.words.map(({ text }) => text)).join(' ');
  for (const template of templates) assert.ok(words.includes(template), `${template} is printed`);
}
