// How long the search for a piece takes. The browser's tools slow the page and not its worker, so a phone slowed four times
// is reckoned: four times as long.

import { newVisitor, PHONE } from '../page.mjs';
import { line } from './quantiles.mjs';

const WANTS = [
  { name: 'a quarter cup, 50 mL', hold: '50', unit: 'mL', side: '70' },
  { name: 'a tablespoon, 15 mL', hold: '15', unit: 'mL', side: '60' },
  { name: 'a half cup, 120 mL', hold: '120', unit: 'mL', side: '90' },
];

export async function benchSearches(site) {
  console.log('\nThe search for a piece, in ms from the tap to the answer.');
  console.log(line('', 'here', '4 times as long', 'found'));
  for (const { name, hold, unit, side } of WANTS) {
    const visitor = await newVisitor(site, { size: PHONE });
    const page = await visitor.newTab();
    await page.goTo('Shelf');
    await page.button('New').click();
    const field = (label) => page.tab.getByLabel(label, { exact: false });
    await field('It should hold').fill(hold);
    await field('Counted in').selectOption(unit);
    await field('Side of your blank').fill(side);
    // The worker has begun before a person comes to the button.
    await page.tab.waitForTimeout(3000);
    const began = performance.now();
    await page.button('Find a piece').click();
    await page.tab.getByRole('button', { name: /^Open (it|this one)$/ }).first().waitFor({ timeout: 300_000 });
    const ms = performance.now() - began;
    const found = (await page.button('Open it').count()) > 0;
    console.log(line(name, ms.toFixed(0), (4 * ms).toFixed(0), found ? 'as wanted' : 'the nearest'));
    await visitor.close();
  }
}
