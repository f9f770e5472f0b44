// Scrolling and looking closer never change the piece: only a drag that is meant does.

import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import { openSite, PHONE, until, visit, WIDE } from './page.mjs';

let site;
before(async () => { site = await openSite(); });
after(() => site.close());

describe('a finger on the panel', () => {
  let visitor;
  let page;
  const open = async (t, group) => {
    ({ visitor, page } = await visit(t, site, { size: PHONE }));
    await page.openGroup(group);
    await page.untilFigured();
  };
  const values = () => page.tab.locator('.panel .value-number input').evaluateAll((all) => all.map((it) => it.value));
  const scrolled = () => page.tab.locator('#main').evaluate((panel) => panel.scrollTop);
  /** The middle of a slider that is in sight, and its thumb. */
  const track = async (name) => {
    await page.slider(name).scrollIntoViewIfNeeded();
    const box = await page.slider(name).boundingBox();
    const share = await page.slider(name).evaluate((it) => (it.value - it.min) / (it.max - it.min));
    return { ...box, middle: box.y + box.height / 2, thumb: box.x + 14 + share * (box.width - 28) };
  };

  test('three upward swipes over sliders scroll, and leave every value as it was', async (t) => {
    for (const group of ['Wood', 'Hollow', 'Handle']) {
      await open(t, group);
      const before = await values();
      const from = await scrolled();
      for (const share of [0.15, 0.5, 0.85]) {
        // Whatever slider lies there: on its track and, at the last, about its thumb.
        const box = await page.slider(await page.tab.locator('.panel .value-label').first().innerText()
          .then((label) => label.split('\n')[0].trim())).boundingBox().catch(() => null);
        const panel = await page.tab.locator('#main').boundingBox();
        const x = 82 + share * 226;
        const y = box && box.y > panel.y && box.y < panel.y + panel.height - 20 ? box.y + 22 : panel.y + panel.height / 2;
        await page.drag({ x, y }, { x: x + 4, y: y - 180 });
      }
      assert.deepEqual(await values(), before, group);
      assert.ok((await scrolled()) > from, `${group} scrolls: from ${from} to ${await scrolled()}`);
      assert.ok(await page.button('Undo').isDisabled(), 'nothing to undo');
      assert.deepEqual(visitor.problems, []);
    }
  });

  test('a swipe that begins on the thumb, and one that begins on minus or plus, scroll as well', async (t) => {
    await open(t, 'Handle');
    const before = await values();
    const { thumb, middle } = await track('Tilt');
    await page.drag({ x: thumb, y: middle }, { x: thumb + 3, y: middle - 140 });
    assert.deepEqual(await values(), before, 'from the thumb');
    await page.entry('Tilt').scrollIntoViewIfNeeded();
    const plus = await page.step('Tilt', 'more').boundingBox();
    await page.drag({ x: plus.x + 24, y: plus.y + 24 }, { x: plus.x + 24, y: plus.y - 120 });
    assert.deepEqual(await values(), before, 'from plus');
    assert.ok(await page.button('Undo').isDisabled(), 'nothing to undo');
    assert.deepEqual(visitor.problems, []);
  });

  test('a tap on the track moves nothing', async (t) => {
    await open(t, 'Handle');
    const before = await values();
    const { x, width, middle } = await track('Tilt');
    await page.tab.touchscreen.tap(x + width - 20, middle);
    assert.deepEqual(await values(), before);
    assert.deepEqual(visitor.problems, []);
  });

  test('sideways the thumb follows the finger, from the thumb and from beside it, as one step to undo', async (t) => {
    await open(t, 'Handle');
    const before = await page.entry('Tilt').inputValue();
    for (const off of [0, 70]) {
      // The slider lies about the range of its value: the thumb moves when that comes.
      await page.tab.waitForFunction(() => /^No check stops/.test(document.querySelector('#value-axes-0--tilt-deg-range')?.textContent.trim()));
      const { thumb, middle, width } = await track('Tilt');
      const span = await page.slider('Tilt').evaluate((it) => it.max - it.min);
      await page.drag({ x: thumb + off, y: middle }, { x: thumb + off + 40, y: middle + 6 });
      const after = Number(await page.entry('Tilt').inputValue());
      // The finger is known to drag only once it has gone some way; the thumb then goes as far as the finger does.
      assert.ok(after > Number(before) + (0.7 * span * 40) / (width - 28), `${off} px beside the thumb: from ${before} to ${after}`);
      await page.untilFigure('Handle', `${after}`);
      await page.button('Undo').click();
      assert.equal(await page.entry('Tilt').inputValue(), before);
      assert.ok(await page.button('Undo').isDisabled(), 'one step');
    }
    assert.deepEqual(visitor.problems, []);
  });

  test('a slider still answers to keys, and tells where no check stops', async (t) => {
    await open(t, 'Handle');
    await page.slider('Tilt').press('ArrowLeft');
    await page.untilFigure('Handle', await page.entry('Tilt').inputValue());
    await page.tab.waitForFunction(() => document.querySelector('#value-axes-0--tilt-deg-range')?.textContent.trim());
    const told = await page.slider('Tilt').evaluate((it) => document.getElementById(it.getAttribute('aria-describedby')).textContent);
    assert.match(told, /^No check stops from [\d.]+\u00b0 to [\d.]+\u00b0\.( (Lower|Higher), [^.]+ stops it\.)*$/);
    assert.deepEqual(visitor.problems, []);
  });
});

test('a mouse drags the thumb, and a click on the track moves it there', async (t) => {
  const { visitor, page } = await visit(t, site, { size: WIDE });
  await page.openGroup('Handle');
  // Checks that arrive move what is below them, and the slider lies about the range of its value.
  await page.tab.waitForFunction(() => document.querySelector('#value-axes-0--tilt-deg-range')?.textContent.trim());
  const box = await page.slider('Tilt').boundingBox();
  const y = box.y + box.height / 2;
  const [low, high] = await page.slider('Tilt').evaluate((it) => [Number(it.min), Number(it.max)]);
  await page.tab.mouse.click(box.x + box.width / 2, y);
  assert.ok(Math.abs(Number(await page.entry('Tilt').inputValue()) - (low + high) / 2) <= 0.5, 'in the middle');
  assert.ok(await page.slider('Tilt').evaluate((it) => document.activeElement === it), 'it has the focus');
  await page.drag({ x: box.x + box.width / 2, y }, { x: box.x + box.width / 4, y: y + 60 });
  const quarter = Number(await page.entry('Tilt').inputValue());
  assert.ok(quarter < (low + high) / 2 - (high - low) / 8, `${quarter}`);
  await page.button('Undo').click();
  await page.button('Undo').click();
  assert.ok(await page.button('Undo').isDisabled());
  assert.deepEqual(visitor.problems, []);
});

test('a pinch that begins on a node looks closer and moves nothing', async (t) => {
  const { visitor, page } = await visit(t, site, { size: PHONE });
  await page.openGroup('Handle');
  const node = await page.findHandle(/^Pass.*point/);
  const named = await page.picked();
  await page.untilFigured();
  const line = () => page.tab.evaluate(() => document.querySelector('.figures-line').innerText);
  const saved = await line();
  const session = await page.tab.context().newCDPSession(page.tab);
  const touch = (type, ...points) => session.send('Input.dispatchTouchEvent', {
    type, touchPoints: points.map(([x, y], id) => ({ x, y, id })),
  });
  // The first finger is down, and moves a little, before the second comes.
  await touch('touchStart', [node.x, node.y]);
  await touch('touchMove', [node.x - 6, node.y + 9]);
  await touch('touchStart', [node.x - 6, node.y + 9], [node.x + 60, node.y + 40]);
  for (let step = 1; step <= 5; step += 1) {
    await touch('touchMove', [node.x - 6 - 8 * step, node.y + 9 + 8 * step], [node.x + 60 + 8 * step, node.y + 40]);
  }
  await touch('touchEnd');
  await session.detach();
  await page.button('Fit').waitFor();
  // The checks of what the first finger moved may still be on the screen.
  await until(async () => await line() === saved, async () => `the figures read ${await line()}`);
  assert.equal(await page.picked(), named, 'the node stands where it stood');
  assert.ok(await page.button('Undo').isDisabled(), 'nothing to undo');
  assert.deepEqual(visitor.problems, []);
});
