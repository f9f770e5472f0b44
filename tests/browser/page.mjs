// What a person sees and does on the page, in the words the tests tell their stories in.

import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { startChromium } from './chromium.mjs';
import { serve } from '../../site/server.mjs';

export const PHONE = { name: 'phone', width: 390, height: 844, hasTouch: true };
export const WIDE = { name: 'wide', width: 1280, height: 800, hasTouch: false };
export const SIZES = [PHONE, WIDE];

/** Served under a path of its own, as on a host that holds other sites too. */
const PATH = '/bench/skewline/';
const AXE = createRequire(import.meta.url).resolve('axe-core/axe.min.js');

/** The built page, served, and a browser to look at it with. */
export async function openSite(folder = 'dist', { brotli = false, faults = new Map() } = {}) {
  const site = await serve({ folder, path: PATH, brotli, faults });
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

/** A person with a device of their own: nothing stored yet. Without `workers` the browser keeps no copy of the page. */
export async function newVisitor(site, { size = PHONE, scheme = 'light', workers = true } = {}) {
  const context = await site.browser.newContext({
    viewport: { width: size.width, height: size.height },
    hasTouch: size.hasTouch,
    colorScheme: scheme,
    locale: 'en-GB',
    acceptDownloads: true,
    serviceWorkers: workers ? 'allow' : 'block',
  });
  const visitor = { site, size, context, problems: [], requests: [] };
  context.on('request', (request) => {
    visitor.requests.push(request.url());
    const { protocol, origin } = new URL(request.url());
    if (protocol.startsWith('http') && origin !== new URL(site.address).origin) {
      visitor.problems.push(`a request to another origin: ${request.url()}`);
    }
  });
  return {
    ...visitor,
    /** The page in a new tab; it is not waited for. */
    newEmptyTab: () => newEmptyTab(visitor),
    newTab: () => openTab(visitor),
    close: () => context.close(),
  };
}

/** A visitor and their page in a first tab, until the test `t` ends. `prepare` readies the device before the page opens. */
export async function visit(t, site, { prepare = async () => {}, ...device } = {}) {
  const visitor = await newVisitor(site, device);
  t.after(() => visitor.close());
  await prepare(visitor);
  return { visitor, page: await visitor.newTab() };
}

async function newEmptyTab({ site, size, context, problems }) {
  const tab = await context.newPage();
  // A breach of the Content-Security-Policy is a console error too.
  tab.on('console', (message) => {
    if (message.type() === 'error') problems.push(`console: ${message.text()} (${message.location().url})`);
  });
  tab.on('pageerror', (error) => problems.push(`uncaught: ${error.message}`));
  return new SkewlinePage(tab, site.address, size);
}

async function openTab(visitor) {
  const page = await newEmptyTab(visitor);
  await page.open();
  return page;
}

export class SkewlinePage {
  constructor(tab, address, size) {
    this.tab = tab;
    this.address = address;
    this.size = size;
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

  /** Every figure is that of the design as it stands. */
  async untilFigured() {
    await this.tab.locator('.app[data-figures=here]').waitFor();
  }

  /** A whole copy of the page is on the device. */
  async untilKept() {
    await this.tab.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  }

  // --- Going about -----------------------------------------------------------------------------------------

  /** Design, Shelf, Shop or Help. */
  async goTo(place) {
    await this.tab.getByRole('navigation', { name: 'Places' }).getByRole('button', { name: place }).click();
  }

  /** Wood, Hollow, Outside, Handle, Opening, and on a narrow screen Marks and Checks. */
  async openGroup(name) {
    await this.tab.getByRole('navigation', { name: 'Groups of values' }).getByRole('button', { name, exact: true }).click();
  }

  /** The button of this name, wherever it is. */
  button(name) {
    return this.tab.getByRole('button', { name, exact: true });
  }

  // --- Values and figures ----------------------------------------------------------------------------------

  /** Where the value of this name is typed. */
  entry(name) {
    return this.tab.getByRole('textbox', { name: new RegExp(`^${name}( ?, (mm|inches|degrees))?$`) }).first();
  }

  /** The button that makes the value of this name a step less or more. */
  step(name, way) {
    return this.tab.getByRole('button', { name: new RegExp(`^${name} ${way} by `) }).first();
  }

  slider(name) {
    return this.tab.getByRole('slider', { name: `${name}, slider`, exact: true }).first();
  }

  async typeValue(name, text) {
    await this.entry(name).fill(text);
    await this.entry(name).press('Enter');
  }

  /** The figure of this name in the line that is always in sight. */
  async figure(name) {
    const line = this.tab.getByRole('region', { name: 'Figures' });
    return line.locator('dt', { hasText: name }).locator('+ dd').innerText();
  }

  /** Waits until the figure of this name reads as it should. */
  async untilFigure(name, wanted) {
    const read = async () => (await this.figure(name)).replaceAll('\u00a0', ' ');
    await until(async () => (await read()).includes(wanted), async () => `${name} reads ${await read()}, not ${wanted}`);
  }

  // --- The drawing -----------------------------------------------------------------------------------------

  /** The drawing that stays in sight. */
  drawing() {
    return this.tab.locator('canvas').first();
  }

  /** The picture on the drawing, to tell whether it changed. */
  async picture() {
    await this.nextFrame();
    return this.drawing().evaluate((canvas) => canvas.toDataURL());
  }

  async nextFrame() {
    await this.tab.evaluate(() => new Promise((resolve) => { requestAnimationFrame(() => setTimeout(resolve)); }));
  }

  /** What is picked on the side view, by name and place; empty when nothing is. */
  async picked() {
    return (await this.tab.locator('.picked-name').innerText()).trim();
  }

  /** Feels over the drawing for a handle whose name matches, and answers where on the screen it was met. */
  async findHandle(pattern) {
    const box = await this.drawing().boundingBox();
    for (let y = box.y + 12; y < box.y + box.height; y += 14) {
      for (let x = box.x + 12; x < box.x + box.width; x += 14) {
        await this.drag({ x, y }, { x, y });
        if (pattern.test(await this.picked())) return { x, y };
      }
    }
    throw new Error(`there is no handle named ${pattern} on the drawing`);
  }

  /** With a finger where the screen takes one, else with the mouse. */
  async drag(from, to) {
    const steps = 6;
    const way = Array.from({ length: steps }, (_, step) => ({
      x: from.x + ((to.x - from.x) * (step + 1)) / steps,
      y: from.y + ((to.y - from.y) * (step + 1)) / steps,
    }));
    if (this.size.hasTouch) {
      const session = await this.tab.context().newCDPSession(this.tab);
      const touch = (type, touchPoints) => session.send('Input.dispatchTouchEvent', { type, touchPoints });
      await touch('touchStart', [from]);
      for (const point of way) await touch('touchMove', [point]);
      await touch('touchEnd', []);
      await session.detach();
    } else {
      await this.tab.mouse.move(from.x, from.y);
      await this.tab.mouse.down();
      for (const point of way) await this.tab.mouse.move(point.x, point.y);
      await this.tab.mouse.up();
    }
  }

  // --- What is kept ----------------------------------------------------------------------------------------

  /** Every text the page keeps, by its name. */
  kept() {
    return this.tab.evaluate(() => ({ ...localStorage }));
  }

  /** Waits until some kept design contains this text. */
  async untilSaved(text) {
    const designs = async () => Object.entries(await this.kept()).filter(([key]) => key.startsWith('skewline/design/'));
    await until(
      async () => (await designs()).some(([, saved]) => saved.includes(text)),
      async () => `no kept design contains ${text}: ${JSON.stringify(await designs()).slice(0, 2000)}`,
    );
  }

  /** Waits until what was changed has been saved and committed: well past the pause before saving. */
  async untilSettled() {
    await new Promise((resolve) => { setTimeout(resolve, 600); });
    await this.nextFrame();
  }

  /** Loads the page anew and keeps it waiting for its turn to save; answers what gives it that at a moment of the clock. */
  async holdSaving() {
    await this.tab.addInitScript(() => {
      if (window.letGo) return;
      const request = navigator.locks.request.bind(navigator.locks);
      const go = new Promise((resolve) => { window.letGo = resolve; });
      // The page goes on without its turn after a while: that wait is held as well.
      const later = window.setTimeout.bind(window);
      window.setTimeout = (action, wait, ...rest) => later(action, wait === 2000 ? 60_000 : wait, ...rest);
      navigator.locks.request = (name, work) => go.then(() => request(name, work));
    });
    await this.reload();
    return (moment = 0) => this.tab.evaluate((at) => { setTimeout(window.letGo, at - Date.now()); }, moment);
  }

  /** Keeps a text as an older or damaged page might have left it. */
  async plant(key, text) {
    await this.tab.evaluate(([name, value]) => localStorage.setItem(name, value), [key, text]);
  }

  /** Leaves no room in the browser's storage: nor any steps back, which would make some, unless they are to stay. */
  async fillStorage({ keepSteps = false } = {}) {
    await this.tab.evaluate((keep) => {
      const steps = Object.keys(localStorage).filter((key) => !keep && key.startsWith('skewline/history/'));
      steps.forEach((key) => localStorage.removeItem(key));
      let filler = 0;
      for (let size = 1 << 20; size >= 1; size >>= 1) {
        try {
          for (;;) localStorage.setItem(`filler ${filler += 1}`, 'x'.repeat(size));
        } catch (error) {
          if (error.name !== 'QuotaExceededError') throw error;
        }
      }
      // What is left has no room for a name: fill it letter by letter.
      try {
        for (;;) localStorage.setItem('filler 1', `${localStorage.getItem('filler 1')}x`);
      } catch (error) {
        if (error.name !== 'QuotaExceededError') throw error;
      }
    }, keepSteps);
  }

  /** The names of the designs on the shelf, which must be open. */
  async namesOnShelf() {
    return this.tab.getByRole('list', { name: 'Designs' }).getByRole('heading').allInnerTexts();
  }

  /** Presses a button that hands out a file, and answers its name and text. */
  async fileFrom(button) {
    const [download] = await Promise.all([this.tab.waitForEvent('download'), button.click()]);
    return { name: download.suggestedFilename(), text: await readFile(await download.path(), 'utf8') };
  }

  /** Chooses a file to bring in. */
  async bringIn(name, text) {
    await this.tab.getByLabel('File to import').setInputFiles({
      name, mimeType: 'application/json', buffer: Buffer.from(text),
    });
  }

  /** Drops a file on the card of files. */
  async drop(name, text) {
    const files = await this.tab.evaluateHandle(([fileName, content]) => {
      const transfer = new DataTransfer();
      transfer.items.add(new File([content], fileName, { type: 'application/json' }));
      return transfer;
    }, [name, text]);
    await this.tab.getByRole('region', { name: 'Files' }).dispatchEvent('drop', { dataTransfer: files });
  }

  /** What the page has to say, in the sentences at its foot. */
  notices() {
    return this.tab.locator('.notices');
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

/** From now on pages of this visitor have no database: they keep everything in local storage alone. */
export function withoutDatabase(visitor) {
  return visitor.context.addInitScript(() => Object.defineProperty(window, 'indexedDB', { value: undefined }));
}

/** From now on pages of this visitor may not use local storage. */
export function withoutLocalStorage(visitor) {
  return visitor.context.addInitScript(() => {
    Object.defineProperty(window, 'localStorage', {
      get() { throw new DOMException('The operation is insecure.', 'SecurityError'); },
    });
  });
}

/** Waits until `holds`; says `otherwise` when it does not come true in time. */
export async function until(holds, otherwise, { within = 10_000 } = {}) {
  for (const end = Date.now() + within; Date.now() < end;) {
    if (await holds()) return;
    await new Promise((resolve) => { setTimeout(resolve, 50); });
  }
  throw new Error(await otherwise());
}
