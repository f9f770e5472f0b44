// Everything on paper at full size: the pages are printed through Chromium, read back from the PDF, and measured
// against the numbers of the design and closed forms.

import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import { checkLines } from './measure.mjs';
import { openSite, until, visit, WIDE } from './page.mjs';
import { LONG, SKEW } from './paper-designs.mjs';
import { measureAll, Tape } from './paper-measuring.mjs';
import { readPdf } from './pdf.mjs';

const PAPERS = [['A4', 210, 297], ['US Letter', 215.9, 279.4]];
/** What does not fit on a page of either paper. */
const LONG_SPLITS = ['Head end', 'Story stick, axes A, B', 'Gauge: handle', 'Saw line, unrolled'];
const PRINTER = { across: 98.5, along: 101 };

let site;
before(async () => { site = await openSite(); });
after(() => site.close());

/** Opens a saved design, or stays with the one that is there; answers the page and the design as it was saved. */
async function openDesign(t, saved) {
  const { visitor, page } = await visit(t, site, { size: WIDE });
  await page.tab.evaluate(() => { window.prints = 0; window.print = () => { window.prints += 1; }; });
  await page.goTo('Shelf');
  if (saved) {
    await page.bringIn('paper.skewline.json', JSON.stringify(saved));
    await page.button(`Open ${saved.design.name}`).click();
  }
  const name = saved?.design.name ?? (await page.namesOnShelf())[0];
  await page.goTo('Shelf');
  const { text } = await page.fileFrom(page.button(`Save to a file: ${name}`));
  await page.goTo('Steps');
  return { visitor, page, design: JSON.parse(text).design };
}

/** Presses a button that prints, waits for the print dialog, and answers the pages as they would come out. */
async function printed(page, button) {
  const already = await page.tab.evaluate(() => window.prints);
  await page.button(button).click();
  await until(async () => (await page.tab.evaluate(() => window.prints)) > already, async () => 'nothing is printed');
  const pages = await readPdf(await page.tab.pdf({ preferCSSPageSize: true }));
  assert.equal(pages.length, await page.tab.locator('.print-page').count(), 'a page of paper for each page laid out');
  return pages;
}

// --- Tests ---------------------------------------------------------------------------------------------------

for (const [paper, ...size] of PAPERS) {
  describe(`on ${paper}`, () => {
    for (const [what, saved, split] of [['the demonstration scoop', null, []], ['a scoop longer than the page', LONG, LONG_SPLITS],
      ['a scoop of three axes with a conical bowl', SKEW, []]]) {
      test(`${what} is printed at full size`, async (t) => {
        const { visitor, page, design } = await openDesign(t, saved);
        await page.button(paper).click();
        const { tape, templates } = measureAll(design, await printed(page, 'Print every template'), size);
        t.diagnostic(`farthest off, in mm: ${tape}`);
        for (const title of split) assert.ok(templates.get(title).pages > 1, `${title} is split`);
        const sheet = await printed(page, 'Print the sheet');
        assert.ok(sheet.length <= 2 && sheet.every(({ words }) => words.length > 20));
        assert.deepEqual(visitor.problems, []);
      });
    }

    test('what a check line measured corrects the prints of that printer, and no other', async (t) => {
      const { visitor, page, design } = await openDesign(t, SKEW);
      const name = page.tab.getByLabel('Printer', { exact: true });
      const use = async (printer) => { await name.fill(printer); await name.press('Enter'); };
      await page.button(paper).click();
      await page.tab.getByText('Does your printer keep its scale?').click();
      await use('by the bench');
      await page.tab.getByLabel('Across measures').fill(`${PRINTER.across}`);
      await page.tab.getByLabel('Along measures').fill(`${PRINTER.along}`);
      await page.button('Correct by it').click();
      const correction = [100 / PRINTER.across, 100 / PRINTER.along];
      const { tape } = measureAll(design, await printed(page, 'Print every template'), size, correction);
      t.diagnostic(`corrected, farthest off, in mm: ${tape}`);
      // What is to be measured is never corrected.
      const [lines] = await printed(page, 'Print the check lines');
      checkLines(lines).forEach(({ length }) => new Tape().check('check lines', length, 101.6, 'uncorrected'));
      await use('in the office');
      measureAll(design, await printed(page, 'Print every template'), size);
      await use('by the bench');
      measureAll(design, await printed(page, 'Print every template'), size, correction);
      assert.deepEqual(visitor.problems, []);
    });
  });
}
