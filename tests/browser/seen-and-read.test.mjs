// What is shown by colour is known without it, and what is shown in inches fits as well.

import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import { openSite, SIZES, visit } from './page.mjs';

let site;
before(async () => { site = await openSite(); });
after(() => site.close());

for (const size of SIZES) {
  describe(`seen and read, ${size.name}`, () => {
    let visitor;
    let page;
    const open = async (t) => {
      ({ visitor, page } = await visit(t, site, { size }));
      await page.openGroup('Handle');
      await page.untilFigured();
    };

    test('the chosen group is told to a screen reader', async (t) => {
      await open(t);
      for (const name of ['Handle', 'Wood', 'Holds']) {
        await page.openGroup(name);
        assert.equal(await page.tab.locator('.groups [aria-pressed=true]').innerText(), name);
        await page.tab.getByRole('main', { name, exact: true }).waitFor();
      }
      assert.deepEqual(visitor.problems, []);
    });

    test('forced colours show the chosen group, the open place and the hatched ends of a slider', async (t) => {
      await open(t);
      await page.tab.emulateMedia({ forcedColors: 'active' });
      const ground = (it) => it.evaluate((element) => getComputedStyle(element).backgroundColor);
      const groups = page.tab.locator('.groups button');
      assert.notEqual(await ground(page.tab.locator('.groups [aria-pressed=true]')), await ground(groups.first()));
      assert.notEqual(await ground(page.tab.locator('.places [aria-current]')),
        await ground(page.tab.locator('.places button').last()));
      // The end of the track where a check stops is hatched, its middle is not. The thumb stands at the low end.
      const told = async () => (await page.tab.locator('#value-axes-0--tilt-deg-range').textContent()).match(/from ([\d.]+).* to ([\d.]+)/);
      await page.tab.waitForFunction(() => document.querySelector('#value-axes-0--tilt-deg-range')?.textContent.trim());
      const [, low, high] = await told();
      await page.typeValue('Tilt', low);
      await page.tab.waitForFunction(() => document.querySelector('#value-axes-0--tilt-deg-range')?.textContent.trim());
      await page.slider('Tilt').scrollIntoViewIfNeeded();
      const most = await page.slider('Tilt').evaluate((it) => Number(it.max));
      const box = await page.slider('Tilt').boundingBox();
      const inks = async (share) => {
        const clip = { x: box.x + share * box.width - 4, y: box.y + box.height / 2 - 4, width: 8, height: 8 };
        const shot = (await page.tab.screenshot({ clip })).toString('base64');
        return page.tab.evaluate(async (data) => {
          const image = new Image();
          image.src = `data:image/png;base64,${data}`;
          await image.decode();
          const canvas = new OffscreenCanvas(image.width, image.height);
          const context = canvas.getContext('2d');
          context.drawImage(image, 0, 0);
          const { data: bytes } = context.getImageData(0, 0, image.width, image.height);
          const light = Array.from({ length: bytes.length / 4 }, (_, i) => bytes[4 * i] + bytes[4 * i + 1] + bytes[4 * i + 2]);
          return Math.max(...light) - Math.min(...light);
        }, shot);
      };
      assert.ok(await inks(0.95) > 300, 'hatched where a check stops');
      // Clear of the thumb at the low end, and of the hatch beyond the high one.
      const plain = (Number(low) + 0.7 * (Number(high) - Number(low))) / most;
      assert.ok(await inks(plain) < 30, `plain where none does: ${await inks(plain)} at ${plain}`);
      assert.deepEqual(visitor.problems, []);
    });

    for (const units of ['millimetres', 'inches']) test(`in ${units} everything keeps to its place`, async (t) => {
      await open(t);
      if (units === 'inches') {
        await page.goTo('Shop');
        await page.button('inches').click();
        await page.button('1/64').click();
        await page.goTo('Design');
      }
      for (const tilt of ['7.5', '16', '24']) {
        await page.openGroup('Handle');
        await page.typeValue('Tilt', tilt);
        await page.untilFigured();
        const spills = await page.tab.evaluate(() => [...document.querySelectorAll(
          '.pill, .pill-words, .figure dd, .figures-line, .value-number, .value-number input, .step-button, .step-button small, .node, .tab',
        )].filter((it) => it.checkVisibility()).flatMap((it) => {
          const [box, parent] = [it.getBoundingClientRect(), it.parentElement.getBoundingClientRect()];
          const over = Math.max(it.scrollWidth - it.clientWidth - (it.clientWidth ? 1 : 9e9), box.right - Math.min(innerWidth, parent.right) - 1);
          return over > 0 ? [`${it.className || it.tagName} ${it.innerText ?? it.value}: ${over}`] : [];
        }));
        assert.deepEqual(spills, [], `tilted by ${tilt}`);
        // Nothing of the figures lies over the pill.
        const [pill, figures] = [await page.tab.locator('.pill').boundingBox(), await page.tab.locator('.figures-line dl').boundingBox()];
        const apart = figures.x + figures.width <= pill.x + 1 || figures.y + figures.height <= pill.y + 1;
        assert.ok(apart, `figures ${JSON.stringify(figures)} and pill ${JSON.stringify(pill)}`);
        const lines = await page.tab.locator('.pill strong').evaluate((it) => it.getClientRects().length);
        assert.equal(lines, 1, 'its verdict stands on one line');
      }
      assert.deepEqual(visitor.problems, []);
    });
  });
}
