// Going about: the way back, a reload, and the way from a check to the value that cures it.

import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import { openSite, PHONE, SIZES, until, visit } from './page.mjs';

let site;
before(async () => { site = await openSite(); });
after(() => site.close());

/** To where the checks lead, where it is known beforehand: the group, and the name of the value. */
const LEADS_TO = new Map([
  ['Blank', ['Wood', /^(Side|Diameter)/]],
  ['Flats', ['Wood', /^(Side|Diameter)/]],
  ['Lathe', ['Wood', /^Length/]],
  ['Boring', ['Hollow', /^(Diameter|Depth)/]],
  ['Floor', ['Hollow', /^Depth/]],
  ['Point of the bit', ['Hollow', /^Depth/]],
  ['Opening', ['Opening', /^(Height|Bow)/]],
]);

/** Designs and shops with faults of many kinds, each a change of the first design and shop. */
const FAULTS = [
  ['tilted far', (design) => { tilt(design).tilt_deg = 24; }],
  ['a blank too small', (design) => { design.blank.section.square.side_mm = 46; }],
  ['a wood that nobody knows', (design) => { design.wood.species = 'Nobody knows'; }],
  ['a blank too long', (design) => { design.blank.length_mm = 900; }],
  ['a hollow too deep', (design) => { bore(design).shape.round_ended.depth_mm += 25; }],
  ['a bore that no bit fits', (design) => {
    Object.assign(bore(design).shape.round_ended, { diameter_mm: 9, rounding_mm: 2 });
    design.cuts = design.cuts.filter((cut) => !(cut.fit_plug || cut === 'take_out_plug'));
  }],
  ['nothing parts it', (design) => { design.cuts = design.cuts.filter((cut) => !cut.part); }],
  ['a neck too thin', (design) => { drawnNodes(design).forEach((node) => { node.diameter_mm *= 0.45; }); }],
  ['a small lathe', () => {}, (shop) => {
    Object.assign(shop.lathe, { swing_over_bed_mm: 70, swing_over_rest_mm: 60, force_limit_n: 5, between_centres_mm: 200 });
  }],
];
const tilt = (design) => design.axes.find((axis) => axis.tilt).tilt;
const bore = (design) => design.cuts.find((cut) => cut.hollow).hollow;
const drawnNodes = (design) => design.cuts.flatMap((cut) => cut.pass?.profile?.drawn?.nodes ?? []);

for (const size of SIZES) {
  describe(`going about, ${size.name}`, () => {
    let visitor;
    let page;
    const open = async (t) => {
      ({ visitor, page } = await visit(t, site, { size }));
      await page.untilFigured();
    };
    const place = () => page.tab.locator('.places [aria-current=page]').innerText();
    const group = () => page.tab.locator('.groups [aria-pressed=true]').innerText();
    const untilAt = (read, wanted) => until(async () => (await read()) === wanted, async () => `${await read()}, not ${wanted}`);

    test('the back gesture goes to the place before, and forward again', async (t) => {
      await open(t);
      const address = page.tab.url();
      for (const name of ['Steps', 'Shelf', 'Help']) await page.goTo(name);
      for (const name of ['Shelf', 'Steps', 'Design']) {
        await page.tab.goBack();
        await untilAt(place, name);
      }
      assert.equal(new URL(page.tab.url()).pathname, new URL(address).pathname, 'still on the page');
      await page.tab.goForward();
      await untilAt(place, 'Steps');
      assert.deepEqual(visitor.problems, []);
    });

    test('from the lathe the back gesture goes to the steps, whatever was ticked', async (t) => {
      await open(t);
      await page.goTo('Steps');
      await page.button('At the lathe: one step at a time').click();
      for (let step = 0; step < 3; step += 1) await page.tab.getByRole('button', { name: /^Done, next/ }).click();
      await page.tab.goBack();
      await untilAt(place, 'Steps');
      assert.deepEqual(visitor.problems, []);
    });

    test('a reload stays at the place, the group and the step', async (t) => {
      await open(t);
      await page.openGroup('Hollow');
      await page.untilSaved('skewline-design');
      await page.reload();
      await untilAt(group, 'Hollow');
      await page.openGroup('Wood');
      await page.reload();
      await untilAt(group, 'Wood');
      for (const name of ['Steps', 'Shelf', 'Shop', 'Help']) {
        await page.goTo(name);
        await page.reload();
        await untilAt(place, name);
      }
      await page.goTo('Lathe');
      await page.untilFigured();
      const step = () => page.tab.locator('.lathe-head p').innerText();
      await page.tab.getByRole('button', { name: /^Done, next/ }).click();
      await page.tab.getByRole('button', { name: /Back$/ }).click();
      const here = await step();
      assert.match(here, /^Step 1 of/);
      await page.tab.waitForTimeout(1200);
      await page.reload();
      await untilAt(step, here);
      assert.deepEqual(visitor.problems, []);
    });

    test('"Show the value" opens the right group at the right row, in sight, for every check', async (t) => {
      await open(t);
      await page.untilSaved('skewline-design');
      const first = Object.entries(await page.kept()).find(([key]) => key.startsWith('skewline/design/'))[1];
      await page.typeValue('Tilt', '7');
      await page.goTo('Shop');
      await page.typeValue('Swing over the bed', '254');
      await until(async () => (await page.kept())['skewline/shop'], async () => 'the shop is kept');
      const shop = JSON.parse((await page.kept())['skewline/shop']);
      const seen = new Map();
      for (const [name, change, changeShop] of FAULTS) {
        await bringOnBench(name, JSON.parse(first), change);
        if (changeShop) {
          const small = structuredClone(shop);
          changeShop(small.shop);
          await page.plant('skewline/shop', JSON.stringify(small));
          await page.reload();
        }
        await page.untilFigured();
        await showChecks();
        const jumps = page.tab.locator('.check').filter({ has: page.tab.getByRole('button', { name: /^Show the value/ }) });
        const titles = (await jumps.locator('h3').allInnerTexts()).map((title) => title.replace(/\s*(Stop|Tight|OK)$/, '').trim());
        for (const [index, title] of titles.entries()) {
          await showChecks();
          await jumps.nth(index).getByRole('button', { name: /^Show the value/ }).click();
          const found = await shown(title, name);
          seen.set(title, found);
        }
      }
      assert.ok(seen.size >= 9, `seen: ${[...seen].map(([title, found]) => `${title}: ${found}`).join('; ')}`);
      assert.deepEqual(visitor.problems, []);
    });

    async function bringOnBench(name, saved, change) {
      change(saved.design);
      saved.design.name = name;
      delete saved.revision;
      delete saved.saved_at_ms;
      await page.goTo('Shelf');
      await page.bringIn(`${name}.skewline.json`, JSON.stringify(saved));
      await page.button(`Open ${name}`).click();
      // What the page said of the file lies over the foot of the panel until it is put away.
      const said = page.notices().getByRole('button', { name: 'Dismiss' });
      while (await said.count()) await said.first().click();
    }

    async function showChecks() {
      await page.tab.getByRole('button', { name: /show all checks/ }).click();
      await page.tab.getByRole('heading', { name: 'Checks', exact: true }).waitFor();
    }

    /** The value that has the focus: its group and its name, once it is wholly in sight. */
    async function shown(title, design) {
      const look = () => page.tab.evaluate(() => {
        const input = document.activeElement;
        if (!input?.matches('input[type=text], select') || !input.closest('#main')) return null;
        const [box, panel] = [input.getBoundingClientRect(), document.querySelector('#main').getBoundingClientRect()];
        const there = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
        return {
          label: (document.querySelector(`label[for="${input.id}"]`) ?? input.closest('label'))?.innerText.trim(),
          inSight: box.top >= panel.top && box.bottom <= Math.min(panel.bottom, innerHeight) && input.contains(there),
        };
      });
      await until(async () => (await look())?.inSight,
        async () => `${title} of ${design} shows ${JSON.stringify(await look())}`);
      const { label } = await look();
      const found = await group();
      const [wanted, pattern] = LEADS_TO.get(title) ?? [found, /./];
      assert.equal(found, wanted, `${title} of ${design}`);
      assert.match(label, pattern, `${title} of ${design}`);
      return `${found}, ${label}`;
    }
  });
}

test('from the value a check led to, the back gesture goes to the checks', async (t) => {
  const { visitor, page } = await visit(t, site, { size: PHONE });
  await page.typeValue('Tilt', '24');
  await page.untilFigured();
  await page.tab.getByRole('button', { name: /show all checks/ }).click();
  await page.tab.getByRole('button', { name: /^Show the value/ }).first().click();
  await page.tab.waitForFunction(() => document.activeElement?.matches('input[type=text]'));
  await page.tab.goBack();
  await page.tab.getByRole('heading', { name: 'Checks', exact: true }).waitFor();
  assert.deepEqual(visitor.problems, []);
});
