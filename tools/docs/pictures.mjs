// SPDX-License-Identifier: MIT
// node pictures.mjs REPORT.html NPM_DIR OUT_DIR: pictures of the report for README and docs.
import { createRequire } from 'node:module';
import { dirname, join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';

const [report, npmDir, out] = process.argv.slice(2);
const require = createRequire(resolve(npmDir, 'package.json'));
const { chromium } = require('playwright-core');

const browser = await chromium.launch({
  executablePath: '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--disable-background-networking'],
});

async function shot(name, viewport, selector, { file = report, act } = {}) {
  const page = await browser.newPage({ viewport, colorScheme: 'light' });
  await page.goto(pathToFileURL(resolve(file)).href);
  await page.waitForSelector('html[data-ready=yes]');
  if (act) await act(page);
  // A picture of a section is taken while it scrolls by: what stays on the screen would cover it.
  if (selector) await page.evaluate(() => (document.querySelector('.switches')?.style.setProperty('position', 'static')));
  const path = join(out, name);
  if (selector) await page.locator(selector).screenshot({ path });
  else await page.screenshot({ path });
  await page.close();
}

await shot('report-phone.png', { width: 400, height: 860 });
await shot('report-temperatures.png', { width: 1000, height: 900 }, 'section:has(> h2:text("Where and when"))');
await shot('report-parking.png', { width: 1000, height: 900 }, 'section:has(> h2:text("after parking"))');
await shot('report-joint.png', { width: 1000, height: 900 }, 'section:has(> h2:text("hat and ring move"))');
await shot('report-corners.png', { width: 1000, height: 900 }, '.zones');
const trace = { file: join(dirname(resolve(report)), 'lap.html') };
await shot('trace-laps.png', { width: 1000, height: 900 }, 'section:has(> h2:text("two laps part"))', trace);
const rear = (page) => page.getByRole('radio', { name: 'Rear' }).check({ force: true });
const hats = { file: join(dirname(resolve(report)), 'hats', 'report.html'), act: rear };
await shot('compare-table.png', { width: 1180, height: 900 }, 'section:has(> h2:text("How do they differ"))', hats);
await shot('compare-curves.png', { width: 1000, height: 900 }, 'section:has(> h2:text("curves over"))', hats);
await shot('compare-phone.png', { width: 390, height: 1350 }, undefined, hats);
await browser.close();
