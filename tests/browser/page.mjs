// What a person sees and does on the page, in the words the tests tell their stories in.

import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { startChromium } from './chromium.mjs';
import { serve } from './site/server.mjs';

export const PHONE = { name: 'phone', width: 390, height: 844, hasTouch: true };
export const WIDE = { name: 'wide', width: 1280, height: 800, hasTouch: false };
export const SIZES = [PHONE, WIDE];

/** Served under a path of its own, as on a host that holds other sites too. */
const PATH = '/bench/skewline/';
const AXE = createRequire(import.meta.url).resolve('axe-core/axe.min.js');

/** The built page, served, and a browser to look at it with. */
export async function openSite(folder = 'dist') {
  const site = await serve({ folder, path: PATH });
  const browser = await startChromium();
  return {
    address: site.address,
    browser,
    replaceWith: site.replaceWith,
    /** The network is gone: nothing answers at the address any more. */
    loseNetwork: () => site.close(),
    close: async () => {
      await browser.close();
      await site.close().catch(() => {});
    },
  };
}

/** A person with a device of their own: nothing stored yet. */
export async function newVisitor(site, { size = PHONE, scheme = 'light' } = {}) {
  const context = await site.browser.newContext({
    viewport: { width: size.width, height: size.height },
    hasTouch: size.hasTouch,
    colorScheme: scheme,
    locale: 'en-GB',
    acceptDownloads: true,
  });
  const visitor = { site, context, problems: [], requests: [] };
  context.on('request', (request) => {
    visitor.requests.push(request.url());
    const { protocol, origin } = new URL(request.url());
    if (protocol.startsWith('http') && origin !== new URL(site.address).origin) {
      visitor.problems.push(`a request to another origin: ${request.url()}`);
    }
  });
  return {
    ...visitor,
    newTab: () => openTab(visitor),
    close: () => context.close(),
  };
}

async function openTab({ site, context, problems }) {
  const tab = await context.newPage();
  // A breach of the Content-Security-Policy is a console error too.
  tab.on('console', (message) => {
    if (message.type() === 'error') problems.push(`console: ${message.text()} (${message.location().url})`);
  });
  tab.on('pageerror', (error) => problems.push(`uncaught: ${error.message}`));
  const page = new SkewlinePage(tab, site.address);
  await page.open();
  return page;
}

export class SkewlinePage {
  constructor(tab, address) {
    this.tab = tab;
    this.address = address;
  }

  async open() {
    await this.tab.goto(this.address);
    await this.untilReady();
  }

  async reload() {
    await this.tab.reload();
    await this.untilReady();
  }

  /** The program has taken the place of the loading text. */
  async untilReady() {
    await this.tab.locator('#loading').waitFor({ state: 'detached' });
    await this.tab.getByRole('main').waitFor();
  }

  /** A whole copy of the page is on the device. */
  async untilKept() {
    await this.tab.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  }

  /** What axe finds wrong, one line each: the rule, where, and how to mend it. */
  async accessibilityFaults() {
    await this.tab.evaluate(await readFile(AXE, 'utf8'));
    const { violations } = await this.tab.evaluate(() => globalThis.axe.run(document, {
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
    }));
    return violations.flatMap(({ id, nodes }) =>
      nodes.map(({ target, failureSummary }) => `${id} at ${target.join(' ')}: ${failureSummary}`));
  }
}
