// Starts the Chromium that the browser tests, pictures and measurements use.

import { chromium } from 'playwright-core';

export const ARGUMENTS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-dev-shm-usage',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** A fresh headless browser, with nothing stored in it. */
export function startChromium() {
  return chromium.launch({ executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium', args: ARGUMENTS });
}
