// The first visit: what is loaded, from where, and that nothing complains.

import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import { newVisitor, openSite, SIZES } from './page.mjs';
import { firstLoad } from '../../site/sizes.mjs';

let site;
before(async () => { site = await openSite(); });
after(() => site.close());

for (const size of SIZES) {
  describe(`first load, ${size.name}`, () => {
    test('shows the program, with no error and no request elsewhere', async () => {
      const visitor = await newVisitor(site, { size });
      const page = await visitor.newTab();
      assert.equal(await page.tab.title(), 'Skewline');
      assert.deepEqual(visitor.problems, []);
      await visitor.close();
    });

    test('keeps within the width of the screen', async () => {
      const visitor = await newVisitor(site, { size });
      const page = await visitor.newTab();
      const spill = await page.tab.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      assert.ok(spill <= 0, `the page is ${spill} px wider than the screen`);
      await visitor.close();
    });
  });
}

test('only what the size budget counts is loaded before the program is ready', async () => {
  const visitor = await newVisitor(site);
  await visitor.context.addInitScript(noteWhenReady);
  const page = await visitor.newTab();
  const counted = (await firstLoad('dist')).map((name) => site.address + (name === 'index.html' ? '' : name));
  const loaded = await page.tab.evaluate(() => [
    location.href,
    ...performance.getEntriesByType('resource')
      .filter(({ initiatorType, startTime }) => initiatorType !== 'other' && startTime < window.readyAt)
      .map(({ name }) => name),
  ]);
  assert.deepEqual(loaded.filter((url) => !counted.includes(url)), []);
  assert.ok(loaded.some((url) => url.endsWith('.wasm')), 'the program itself is among what was loaded');
  await visitor.close();
});

// Runs in the page, before anything of it does.
function noteWhenReady() {
  new MutationObserver((_, observer) => {
    if (document.querySelector('.app')) {
      window.readyAt = performance.now();
      observer.disconnect();
    }
  }).observe(document, { childList: true, subtree: true });
}

test('says when the later part of the program cannot be fetched, and fetches it again', async () => {
  const visitor = await newVisitor(site);
  const later = '**/split_later.wasm';
  await visitor.context.route(later, (route) => route.abort());
  const page = await visitor.newTab();
  await page.tab.getByText('A part of Skewline could not be fetched.').waitFor();
  await page.typeValue('Tilt', '9');
  await visitor.context.unroute(later);
  await page.button('Try again').click();
  await page.untilFigured();
  await page.tab.getByText('A part of Skewline could not be fetched.').waitFor({ state: 'detached' });
  await page.reload();
  assert.equal(await page.entry('Tilt').inputValue(), '9.0');
  await visitor.close();
});

test('says what to do where scripts are switched off', async () => {
  const context = await site.browser.newContext({ javaScriptEnabled: false });
  const tab = await context.newPage();
  await tab.goto(site.address);
  assert.match(await tab.locator('noscript').innerText(), /needs JavaScript/);
  await context.close();
});
