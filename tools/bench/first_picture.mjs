// SPDX-License-Identifier: MIT
// node first_picture.mjs NPM_DIR REPORT.html [RUNS]: how long until a slow phone shows the answer, and the first chart,
// as JSON; {} where there is no Chromium.
// Chromium without a window at 390 x 844, its processor slowed four times (the browser's own throttle). The peers in the
// same run: a page with one sentence, and a plain table of the same numbers that the report carries for its first chart.
import { existsSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';

const kSlower = 4;
const [npmDir, report, runs = '9'] = process.argv.slice(2);
const executablePath = ['/usr/bin/chromium', '/usr/bin/chromium-browser'].find((path) => existsSync(path));
if (!executablePath) {
  console.log('{}');
  process.exit(0);
}
const { chromium } = createRequire(resolve(npmDir, 'package.json'))('playwright-core');

const kHead = '<!doctype html><html lang="en"><meta charset="utf-8"><title>peer</title>';
function plainTable(html) {
  const json = html.match(/<script type="application\/json" id="run">(.*?)<\/script/s)[1];
  const { series } = JSON.parse(json);
  const columns = [series.time, series.speed, series.front.temperature.ring_face_outboard];
  const rows = series.time.map((_, i) => `<tr>${columns.map((column) => `<td>${column[i]}</td>`).join('')}</tr>`);
  return `${kHead}<h1>Within limits.</h1><table>${rows.join('')}</table>`;
}

// In the page, before anything of it runs: the first paint with content, and the frame after the first chart is there.
function watch() {
  window.marks = {};
  new PerformanceObserver((list) => {
    for (const { name, startTime } of list.getEntries())
      if (name === 'first-contentful-paint') window.marks.answer = startTime;
  }).observe({ type: 'paint', buffered: true });
  new MutationObserver((_, observer) => {
    if (!document.querySelector('.uplot canvas')) return;
    observer.disconnect();
    requestAnimationFrame(() => setTimeout(() => (window.marks.chart = performance.now())));
  }).observe(document, { childList: true, subtree: true });
}

const work = mkdtempSync(join(tmpdir(), 'hatring-first-picture-'));
const html = readFileSync(report, 'utf8');
const pages = { 'one sentence': join(work, 'sentence.html'), 'plain table': join(work, 'table.html'), report: resolve(report) };
writeFileSync(pages['one sentence'], `${kHead}<h1>Within limits.</h1>`);
writeFileSync(pages['plain table'], plainTable(html));

const browser = await chromium.launch({
  executablePath,
  args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking'],
});
async function once(file, chart) {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 }, deviceScaleFactor: 2 });
  const page = await context.newPage();
  const session = await context.newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: kSlower });
  await page.addInitScript(watch);
  await page.goto(pathToFileURL(file).href, { waitUntil: 'commit' });
  const done = await page.waitForFunction((wanted) => window.marks?.[wanted] && window.marks, chart ? 'chart' : 'answer');
  const marks = await done.jsonValue();
  await context.close();
  return marks;
}

const median = (values) => values.sort((a, b) => a - b)[Math.floor(values.length / 2)];
const found = {};
for (let i = 0; i < Number(runs); ++i)
  for (const [name, file] of Object.entries(pages)) {
    const marks = await once(file, name === 'report');
    for (const [mark, time] of Object.entries(marks)) ((found[name] ??= {})[mark] ??= []).push(time);
  }
await browser.close();
rmSync(work, { recursive: true, force: true });

for (const marks of Object.values(found)) for (const mark of Object.keys(marks)) marks[mark] = median(marks[mark]);
console.log(JSON.stringify({ slower: kSlower, runs: Number(runs), bytes: statSync(report).size, milliseconds: found }, null, 1));
