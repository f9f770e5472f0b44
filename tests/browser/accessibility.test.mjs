// What axe-core can find by itself, in both colour schemes.

import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { newVisitor, openSite, SIZES, visit } from './page.mjs';

let site;
before(async () => { site = await openSite(); });
after(() => site.close());

for (const size of SIZES) {
  for (const scheme of ['light', 'dark']) {
    test(`axe finds nothing on the first view, ${size.name}, ${scheme}`, async () => {
      const visitor = await newVisitor(site, { size, scheme });
      const page = await visitor.newTab();
      assert.deepEqual(await page.accessibilityFaults(), []);
      await visitor.close();
    });
  }
}

for (const size of SIZES) {
  test(`axe finds nothing in any place, group or drawing, ${size.name}`, async (t) => {
    const { visitor, page } = await visit(t, site, { size });
    const faults = async (view) => (await page.accessibilityFaults()).map((fault) => `${view}: ${fault}`);
    const found = [];
    const groups = page.tab.getByRole('navigation', { name: 'Groups of values' }).getByRole('button');
    for (const name of await groups.allInnerTexts()) {
      await page.openGroup(name);
      found.push(...await faults(name));
    }
    const tabs = page.tab.getByRole('group', { name: 'Drawing shown' }).getByRole('button');
    for (const name of await tabs.allInnerTexts()) {
      await page.button(name).click();
      found.push(...await faults(name));
    }
    for (const place of ['Steps', 'Shelf', 'Shop', 'Help', 'Lathe']) {
      await page.goTo(place);
      found.push(...await faults(place));
    }
    assert.deepEqual(found, []);
  });
}
