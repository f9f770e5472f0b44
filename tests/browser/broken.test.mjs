// The program itself breaks: the page says so, hands out the work as a file, and begins anew without what may have broken it.

import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { openSite, until, visit, withoutLocalStorage } from './page.mjs';

const SAID = 'Something in Skewline broke.';
/** What a browser may do to the program that makes it stop: it cannot go on without the elements of its page. */
const BLOWS = {
  'a panic': () => { refuse(() => { throw new Error('denied'); }); },
  'an error thrown through the program': () => { refuse(() => null); },
};

let site;
before(async () => { site = await openSite(); });
after(() => site.close());

for (const [name, blow] of Object.entries(BLOWS)) {
  test(`${name}: the page says so, saves the work to a file and begins anew with the shelf, without the choices`, async (t) => {
    const { page } = await visit(t, site);
    await page.openGroup('Handle');
    await page.typeValue('Tilt', '8.5');
    await page.untilSaved('"tilt_deg":8.5');
    await page.plant('skewline:screen', '{"theme":"dark","section_mm":31}');
    await strike(page, blow);
    await page.tab.getByText(SAID).waitFor();
    const { text } = await page.fileFrom(page.button('Save everything kept here to a file'));
    assert.match(JSON.parse(text).set_aside[0], /"tilt_deg":8\.5/);
    assert.equal((await page.kept())['skewline:screen'], undefined, 'the choices of the screen are left out');
    // What the program would still do as the page ends might break it again, or take the note back.
    await page.tab.getByRole('link', { name: 'Start again' }).click();
    await page.untilReady();
    await page.tab.getByText('is not opened by itself').waitFor();
    assert.equal(await page.tab.getByText(SAID).isVisible(), false);
    await page.button('Open now').click();
    await page.openGroup('Handle');
    await until(async () => (await page.entry('Tilt').inputValue()) === '8.5', () => 'the work is lost');
  });
}

test('a panic, and the page is loaded again by hand: the shelf comes up first all the same', async (t) => {
  const { page } = await visit(t, site);
  await page.openGroup('Handle');
  await page.typeValue('Tilt', '8.5');
  await page.untilSaved('"tilt_deg":8.5');
  await strike(page, BLOWS['a panic']);
  await page.tab.getByText(SAID).waitFor();
  await page.reload();
  await page.tab.getByText('is not opened by itself').waitFor();
});

test('a panic where nothing can be stored: the page says so', async (t) => {
  const { page } = await visit(t, site, { prepare: withoutLocalStorage });
  await strike(page, BLOWS['a panic']);
  await page.tab.getByText(SAID).waitFor();
  await page.tab.getByRole('link', { name: 'Start again' }).click();
  await page.untilReady();
});

const CHOICES = [
  '{"theme":"device","section_mm":1e300}', '{"theme":"device","section_mm":-1e9}', '{"section_mm":null}', '{"theme":"neon"}', '[', '"x"', '',
];

test('stored choices that cannot be, or lie far outside the piece: the page opens', async (t) => {
  const { visitor, page } = await visit(t, site);
  await page.untilSaved('skewline-design');
  for (const choices of CHOICES) {
    await page.plant('skewline:screen', choices);
    await page.tab.goto('about:blank');
    await page.tab.goto(site.address);
    await page.untilReady();
    await page.untilFigured();
    await page.button('Section').click();
    await page.nextFrame();
    assert.equal(await page.tab.getByText(SAID).isVisible(), false, choices);
  }
  assert.deepEqual(visitor.problems, []);
});

/** Breaks the program as it shows the shelf. */
async function strike(page, blow) {
  await page.untilFigured();
  await page.tab.evaluate(`(() => {
    const make = Document.prototype.createElement;
    const refuse = (instead) => {
      Document.prototype.createElement = function createElement(name, ...rest) {
        // The page's own script makes links of its own.
        return name === 'a' ? make.call(this, name, ...rest) : instead();
      };
      Node.prototype.cloneNode = instead;
    };
    (${blow})();
  })()`);
  await page.goTo('Shelf');
}
