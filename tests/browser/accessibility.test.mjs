// What axe-core can find by itself, in both colour schemes.

import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { newVisitor, openSite, SIZES } from './page.mjs';

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
