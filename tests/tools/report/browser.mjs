// SPDX-License-Identifier: MIT
// What the browser tests of the report page share: headless Chromium, opening a page, the checks every page passes.
import assert from 'node:assert/strict';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const flags = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];
// Other tests may have the machine to themselves for a while: late is not wrong here, ctest has the last word.
const kPatience = 90000; // ms

let axe = '';

/** Runs `checks(context, work)` in a fresh Chromium with a folder of its own; exits with 77 where there is none. */
export async function withBrowser(npmDir, checks, locale = 'en-GB') {
  const chromiumPath = ['/usr/bin/chromium', '/usr/bin/chromium-browser'].find((path) => existsSync(path));
  if (!chromiumPath || !existsSync(join(npmDir, 'installed'))) {
    console.log('skipped: no Chromium, or the npm packages of the report are missing');
    process.exit(77);
  }
  const require = createRequire(join(npmDir, 'package.json'));
  const { chromium } = require('playwright-core');
  axe = readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8');
  const work = mkdtempSync(join(tmpdir(), 'hatring-report-'));
  let context;
  try {
    context = await chromium.launchPersistentContext(join(work, 'profile'), {
      executablePath: chromiumPath,
      headless: true,
      args: flags,
      locale,
      viewport: { width: 1280, height: 900 },
      // A page that glides while it scrolls is hit beside the target.
      reducedMotion: 'reduce',
      timeout: kPatience,
    });
    context.setDefaultTimeout(kPatience);
    await checks(context, work);
  } finally {
    await context?.close();
    // Chromium's helpers may still be writing into the profile when the browser is gone already.
    rmSync(work, { recursive: true, force: true, maxRetries: 20, retryDelay: 250 });
  }
}

/** Waits until the page has taken note of its size: charts and hints follow it only with the next frames drawn. */
export async function settled(page) {
  await page.evaluate(async () => {
    const frame = () => new Promise((next) => requestAnimationFrame(next));
    const drawn = (chart) => !chart.clientWidth || chart.querySelector('.uplot')?.offsetWidth === chart.clientWidth;
    await frame();
    await frame();
    while (![...document.querySelectorAll('.chart[role=img]')].every(drawn)) await frame();
  });
}

export async function open(context, url) {
  const page = await context.newPage();
  const faults = [];
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') faults.push(message.text());
  });
  page.on('pageerror', (error) => faults.push(String(error)));
  page.on('dialog', (dialog) => {
    faults.push(`dialog ${dialog.message()}`);
    void dialog.dismiss();
  });
  page.on('request', (request) => {
    if (request.url() !== url && !request.url().startsWith('data:')) faults.push(`request to ${request.url()}`);
  });
  await page.goto(url);
  await page.waitForSelector('html[data-ready=yes]');
  await settled(page);
  return { page, faults };
}

export const text = (page, selector) => page.locator(selector).first().innerText();

export async function isAccessible(context, url, width, colorScheme, pictures = '', name = 'page') {
  const { page, faults } = await open(context, url);
  await page.setViewportSize({ width, height: width < 600 ? 800 : 900 });
  await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
  await settled(page);
  for (const name of [/^Choose the parts shown/, /^Show all/, /^Where do the limits/, /^Session card to print/]) {
    const fold = page.locator('summary', { hasText: name });
    if (await fold.count()) await fold.click();
  }
  // The page's policy bars foreign scripts, so the checker comes in through the debugger.
  await page.evaluate(axe);
  const { violations } = await page.evaluate(() => globalThis.axe.run());
  assert.deepEqual(
    violations.map(({ id, nodes }) => `${id}: ${nodes[0].html} ${nodes[0].failureSummary}`),
    [],
  );
  const sideways = await page.evaluate(
    () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
  );
  assert.ok(sideways <= 0, `${width} px: the page is ${sideways} px too wide`);
  const small = await page.evaluate(() =>
    [...document.querySelectorAll('#page *')]
      .filter(
        (element) =>
          [...element.childNodes].some((node) => node.nodeType === 3 && node.textContent.trim()) &&
          element.checkVisibility() &&
          parseFloat(getComputedStyle(element).fontSize) < 16,
      )
      .map((element) => element.outerHTML.slice(0, 80)),
  );
  assert.deepEqual(small, [], 'text under 16 px');
  const targets = await page.evaluate(() =>
    [...document.querySelectorAll('button, select, summary, label:has(input), input[type=range]')]
      .filter((element) => element.checkVisibility() && element.getBoundingClientRect().height < 43.9)
      .map((element) => element.outerHTML.slice(0, 80)),
  );
  assert.deepEqual(targets, [], 'targets under 44 px');
  if (pictures) {
    await page.evaluate(() => scrollTo(0, 0));
    const path = join(pictures, `${name}-${width}-${colorScheme}`);
    await page.screenshot({ path: `${path}-first.png` });
    await page.screenshot({ path: `${path}.png`, fullPage: true });
  }
  assert.deepEqual(faults, []);
  await page.close();
}
