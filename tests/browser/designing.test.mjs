// One design: values, figures, the drawing, and ways back.

import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import { openSite, SIZES, visit, WIDE } from './page.mjs';
import { TWO_HOLLOWS } from './paper-designs.mjs';

let site;
before(async () => { site = await openSite(); });
after(() => site.close());

for (const size of SIZES) {
  describe(`designing, ${size.name}`, () => {
    let visitor;
    let page;
    const open = async (t) => {
      ({ visitor, page } = await visit(t, site, { size }));
      await page.openGroup('Handle');
    };

    test('first open shows a finished design with its figures and its drawing', async (t) => {
      await open(t);
      await page.untilFigured();
      for (const name of ['Holds', 'Thinnest wall', 'Handle', 'Wood']) {
        assert.match(await page.figure(name), /\d/, `${name} is a number`);
      }
      const inks = await page.drawing().evaluate((canvas) => {
        const { data } = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height);
        return new Set(new Uint32Array(data.buffer)).size;
      });
      assert.ok(inks > 10, `the drawing has ${inks} colours`);
      const density = await page.drawing().evaluate((canvas) =>
        canvas.width / (canvas.clientWidth * devicePixelRatio));
      assert.ok(Math.abs(density - 1) < 0.01, 'the drawing is as sharp as the screen');
      assert.deepEqual(visitor.problems, []);
    });

    test('a new handle angle changes the figures and the drawing at once', async (t) => {
      await open(t);
      const [wall, picture] = [await page.figure('Thinnest wall'), await page.picture()];
      await page.typeValue('Tilt', '5');
      await page.untilFigure('Handle', '5.0');
      assert.notEqual(await page.picture(), picture);

      const atFive = await page.picture();
      await page.slider('Tilt').press('ArrowRight');
      assert.notEqual(await page.picture(), atFive);
      await page.step('Tilt', 'more').click();
      assert.notEqual(await page.figure('Handle'), '5.0');
      await page.typeValue('Tilt', '16');
      await page.untilFigure('Handle', '16.0');
      assert.notEqual(await page.figure('Thinnest wall'), wall);
      assert.deepEqual(visitor.problems, []);
    });

    // Beside the design on a wide screen only.
    if (size === WIDE) test('a check that reads the same stays as it is while others change', async (t) => {
      await open(t);
      await page.untilFigured();
      const same = page.tab.locator('.check', { hasText: 'The outside stays clear of the hollow.' });
      await same.evaluate((check) => { check.dataset.seen = 'before'; });
      await page.typeValue('Tilt', '8');
      await page.untilFigure('Handle', '8.0');
      await page.untilFigured();
      assert.equal(await same.getAttribute('data-seen'), 'before');
      assert.deepEqual(visitor.problems, []);
    });

    test('lengths are understood as millimetres, inches and fractions', async (t) => {
      await open(t);
      for (const [typed, shown] of [['70', '70.0'], ['70,5', '70.5'], ['2 1/2 in', '63.5'], ['2.5"', '63.5']]) {
        await page.typeValue('Axes cross at', typed);
        assert.equal(await page.entry('Axes cross at').inputValue(), shown, `typed ${typed}`);
      }
      assert.deepEqual(visitor.problems, []);
    });

    test('nonsense stays on screen with the reason, and the piece stays as it was', async (t) => {
      await open(t);
      for (const nonsense of ['a lot', '400', '-3', '1e999', '']) {
        const [picture, handle] = [await page.picture(), await page.figure('Handle')];
        await page.typeValue('Tilt', nonsense);
        const entry = page.entry('Tilt');
        assert.equal(await entry.inputValue(), nonsense);
        assert.equal(await entry.getAttribute('aria-invalid'), 'true', `typed ${nonsense || 'nothing'}`);
        const reason = await page.tab.locator(`#${await entry.getAttribute('aria-describedby')}`).innerText();
        assert.ok(reason.length > 10, `a sentence says why ${nonsense} is not taken`);
        assert.equal(await page.figure('Handle'), handle);
        assert.equal(await page.picture(), picture);
        await entry.press('Escape');
        assert.equal(await entry.getAttribute('aria-invalid'), 'false');
      }
      assert.deepEqual(visitor.problems, []);
    });

    test('a node is dragged on the drawing', async (t) => {
      await open(t);
      const place = await page.findHandle(/^Pass.*point/);
      const [picked, picture] = [await page.picked(), await page.picture()];
      await page.drag(place, { x: place.x + 6, y: place.y + 18 });
      assert.notEqual(await page.picture(), picture);
      assert.notEqual(await page.picked(), picked, 'the node tells its new place');
      await page.button('Undo').click();
      assert.ok(await page.button('Undo').isDisabled(), 'a drag is one step to undo');
      assert.deepEqual(visitor.problems, []);
    });

    test('a handle is moved by arrow keys', async (t) => {
      await open(t);
      await page.drawing().focus();
      await page.drawing().press('PageDown');
      const picked = await page.picked();
      assert.match(picked, /\d/);
      await page.drawing().press('ArrowRight');
      assert.notEqual(await page.picked(), picked);
      await page.tab.keyboard.press('Control+z');
      assert.ok(await page.button('Undo').isDisabled());
      assert.deepEqual(visitor.problems, []);
    });

    test('undo and redo go back and forth', async (t) => {
      await open(t);
      const handle = await page.figure('Handle');
      await page.typeValue('Tilt', '3');
      await page.untilFigure('Handle', '3.0');
      await page.typeValue('Tilt', '4');
      await page.untilFigure('Handle', '4.0');
      await page.button('Undo').click();
      await page.untilFigure('Handle', '3.0');
      await page.button('Undo').click();
      await page.untilFigure('Handle', handle.replaceAll('\u00a0', ' '));
      await page.button('Redo').click();
      await page.button('Redo').click();
      await page.untilFigure('Handle', '4.0');
      assert.ok(await page.button('Redo').isDisabled());
      assert.deepEqual(visitor.problems, []);
    });

    test('the wall map shows whichever hollow is chosen', async (t) => {
      await open(t);
      await page.button('Wall map').click();
      const map = page.tab.getByRole('img', { name: /^Map of the wall/ });
      const choice = page.tab.getByRole('combobox', { name: 'Wall of' });
      await map.waitFor();
      assert.equal(await choice.count(), 0, 'one hollow leaves no choice');

      await page.goTo('Shelf');
      await page.bringIn('paper.skewline.json', JSON.stringify(TWO_HOLLOWS));
      await page.button(`Open ${TWO_HOLLOWS.design.name}`).click();
      await page.untilFigured();
      // On a narrow screen the drawing stays as it was chosen; on a wide one both stand again at their first.
      await page.button('Wall map').click();
      await choice.waitFor();
      assert.deepEqual(await choice.getByRole('option').allInnerTexts(), ['Bore', 'Hollow (axis C)']);
      assert.equal(await choice.inputValue(), 'Bore');
      const seen = async () => {
        await page.nextFrame();
        return map.evaluate((canvas) => [canvas.getAttribute('aria-label'), canvas.toDataURL()]);
      };
      const [boreWall, boreMap] = await seen();
      await choice.selectOption('Hollow (axis C)');
      const [otherWall, otherMap] = await seen();
      assert.notEqual(otherMap, boreMap);
      assert.notEqual(otherWall, boreWall, 'the thinnest place told is that of the hollow shown');
      assert.deepEqual(await page.accessibilityFaults(), []);
      await choice.selectOption('Bore');
      assert.deepEqual(await seen(), [boreWall, boreMap]);
      assert.deepEqual(visitor.problems, []);
    });

    test('a wall that is too thin is said in words, with the place and the cure', async (t) => {
      await open(t);
      await page.typeValue('Tilt', '24');
      await page.tab.getByRole('button', { name: /show all checks/ }).click();
      const stop = page.tab.getByRole('listitem').filter({ hasText: 'Stop' }).first();
      assert.match(await stop.innerText(), /\d/);
      await stop.getByRole('button', { name: /^Show the value/ }).click();
      await page.tab.waitForFunction(() => document.activeElement?.matches('input[type=text]'));
      assert.deepEqual(visitor.problems, []);
    });
  });
}
