// SPDX-License-Identifier: MIT
// node page.test.mjs RENDER_PAGE NPM_DIR [SCREENSHOT_DIR]: the report page of made-up runs in headless Chromium.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { isAccessible, open, settled, text, withBrowser } from './browser.mjs';
import { cutsBarsAndCard } from './section_checks.mjs';
import { syntheticComparison } from './synthetic_comparison.mjs';
import { syntheticRun } from './synthetic_run.mjs';
import { addSection } from './synthetic_section.mjs';

const [renderPage, npmDir, pictures] = process.argv.slice(2);
const kHostile = '<script>alert(1)</script>';
let work = '';

function renderRun(name, run) {
  const json = join(work, `${name}.json`);
  const html = join(work, `${name}.html`);
  writeFileSync(json, JSON.stringify(run));
  execFileSync(renderPage, [json, html]);
  return pathToFileURL(html).href;
}

async function readsAndSwitches(context, url, run) {
  const { page, faults } = await open(context, url);
  assert.equal(await text(page, 'h1'), kHostile, 'the title is shown as text');
  assert.match(await text(page, '.answer h2'), /^The front hat gets hotter/);

  // What is over or not judged stands open, and the closest of the rest up to ten rows; the others follow on request.
  const visible = () => page.locator('.verdict').evaluateAll((all) => all.filter((row) => row.checkVisibility()).length);
  assert.ok(run.verdicts.length > 10);
  assert.equal(await visible(), 10);
  await page.locator('summary', { hasText: `Show all ${run.verdicts.length} rows` }).click();
  assert.equal(await visible(), run.verdicts.length);

  // Every verdict is told by a word and by a shape of its own.
  const shapes = await page
    .locator('.verdict')
    .evaluateAll((rows) =>
      rows.map((row) => [row.querySelector('.level').textContent, row.querySelector('.outline').getAttribute('d')]),
    );
  assert.equal(new Set(shapes.map(([word]) => word)).size, new Set(shapes.map(([, shape]) => shape)).size);

  // The units switch: temperatures with offset, margins by scale alone, lengths in mm and thou.
  const hat = run.verdicts[0];
  const fact = (title, name) => text(page, `.verdict:has(h3:has-text("${title}")) .${name} dd`);
  assert.equal(await fact('Front hat', 'value'), `${Math.round(hat.value - 273.15)}\u00a0°C`);
  assert.equal(await fact('Front hat', 'margin'), `${Math.round(-hat.margin)}\u00a0°C over`);
  assert.equal(await fact('Front joint', 'value'), `${(1e3 * run.verdicts[3].value).toFixed(2)}\u00a0mm`);
  assert.equal(await fact('heating rate', 'limit'), 'no value');
  await page.getByRole('radio', { name: 'US' }).focus();
  await page.keyboard.press('Space');
  assert.equal(await fact('Front hat', 'value'), `${Math.round(hat.value * 1.8 - 459.67)}\u00a0°F`);
  assert.equal(await fact('Front hat', 'margin'), `${Math.round(-1.8 * hat.margin)}\u00a0°F over`);
  assert.equal(await fact('Front joint', 'value'), `${(run.verdicts[3].value / 25.4e-6).toFixed(1)}\u00a0thou`);
  assert.equal(await fact('heating rate', 'value'), `${Math.round(1.8 * 182)}\u00a0°F/s`);
  assert.match(await text(page, '.moment'), /\bft in, \d+\smph$/);
  await page.getByRole('radio', { name: 'Metric' }).check({ force: true });

  // Another lap: the cursor starts at its hottest face, and the arrow keys move it.
  const lap3 = run.spans.findIndex(({ label }) => label === 'lap 3');
  await page.getByLabel('Show', { exact: true }).selectOption(String(lap3));
  assert.match(await text(page, '.moment'), /lap 3/);
  const hottest = run.laps.front[lap3].highest.ring_face_outboard;
  assert.equal(await text(page, '.key li strong'), `${Math.round(hottest - 273.15)}\u00a0°C`);
  const before = await text(page, '.moment');
  const slider = page.getByRole('slider', { name: 'Moment shown', exact: true });
  await slider.focus();
  for (let i = 0; i < 30; ++i) await page.keyboard.press('ArrowRight');
  assert.notEqual(await text(page, '.moment'), before);
  assert.match(await slider.getAttribute('aria-valuetext'), /lap 3.*km\/h; Ring face, outboard \d+\s°C/);

  await settled(page);

  // A tap on the speed chart moves the cursor of the temperature chart: they are linked.
  const moved = await text(page, '.moment');
  await page
    .locator('.u-over')
    .first()
    .click({ position: { x: 20, y: 40 } });
  assert.notEqual(await text(page, '.moment'), moved);
  const lines = await page
    .locator('section:nth-of-type(2) .u-cursor-x')
    .evaluateAll((all) => all.map((line) => line.style.transform.match(/translate\((-?[\d.]+)px/)?.[1]));
  assert.equal(lines.length, 2);
  assert.equal(lines[0], lines[1]);

  // Along distance, the other axle, the data table, another part.
  await page.getByRole('radio', { name: 'Distance' }).check({ force: true });
  assert.match(await text(page, '.axis-title'), /Lap 3: distance, km/);
  await page.getByText('Choose the parts shown').click();
  await page.getByRole('checkbox', { name: /Hub/ }).check();
  assert.equal(await page.locator('section:nth-of-type(2) .key li').count(), 6);
  await page.getByText('The same as a table').first().click();
  await page.locator('section:nth-of-type(2) .scroll tbody tr').nth(20).waitFor();
  await page.getByRole('radio', { name: 'Rear' }).check({ force: true });
  await page.getByText('The rear disc has no joint').waitFor();
  await page.getByRole('radio', { name: 'Front' }).check({ force: true });

  // Parking: the caliper's peak is named; the joint: the change of sign is told.
  assert.match(await text(page, 'ul.plain'), /Caliper: peaks at \d+\s°C after \d+:\d\d parked\./);
  await page.getByText('loaded the other way').waitFor();
  await page.getByLabel('Lap', { exact: true }).selectOption({ index: 2 });
  await page.getByRole('heading', { name: 'Before you rely on this' }).waitFor();
  assert.deepEqual(faults, []);
  await page.close();
}

async function compares(context, url) {
  const { page, faults } = await open(context, url);
  assert.match(await text(page, '.answer h2'), /^Take cooler hats/);
  const heads = () => page.locator('.comparison .letter').allInnerTexts();
  assert.deepEqual(await heads(), ['A', 'B', 'C']);
  assert.equal(await text(page, '.comparison th:has(.pick-me) .variant'), 'cooler hats');

  // Values with their difference; the best and 'no clear difference' by shape.
  const cells = (name) => page.locator(`.comparison tr:has(button:text-is("${name}")) td`);
  const hat = cells('Front hat flange, °C');
  assert.deepEqual(await hat.allInnerTexts(), ['207', '267\n+60', '177\n\u221230']);
  assert.equal(await hat.nth(2).locator('[aria-label=best]').count(), 1);
  assert.equal(await hat.nth(1).locator('[aria-label=best]').count(), 0);
  assert.equal(await cells('Front fluid, °C').nth(1).locator('[aria-label="no clear difference"]').count(), 1);
  assert.equal(await page.locator('.comparison button:text("mass")').count(), 0);
  await page.getByText('Alike in all: front mass.').waitFor();

  // A tap on a row sorts by it behind the reference, a second one undoes it; bands on request.
  await page.getByRole('button', { name: 'Front hat flange, °C' }).click();
  assert.deepEqual(await heads(), ['A', 'C', 'B']);
  await page.getByRole('button', { name: 'Front hat flange, °C' }).click();
  assert.deepEqual(await heads(), ['A', 'B', 'C']);
  await page.getByRole('radio', { name: 'With bands' }).check({ force: true });
  assert.match(await hat.nth(0).innerText(), /177 to 247$/);
  assert.match(await hat.nth(1).innerText(), /same way in all$/);
  assert.match(await hat.nth(2).innerText(), /same way in 99.%$/); // not in all, though it rounds to 100
  await page.getByRole('radio', { name: 'US' }).check({ force: true });
  assert.match(await cells('Front hat flange, °F').nth(1).innerText(), /^512\n\+108/);
  await page.getByRole('radio', { name: 'Metric' }).check({ force: true });
  await page.getByRole('radio', { name: 'Rear' }).check({ force: true });
  assert.deepEqual(await cells('Rear hat flange, °C').first().allInnerTexts(), ['197']);
  await page.getByRole('radio', { name: 'Front' }).check({ force: true });

  // Curves over each other, each with a dash of its own; one without a joint is named.
  const dashes = () =>
    page.locator('.key .sample line').evaluateAll((all) => all.map((line) => line.getAttribute('stroke-dasharray')));
  assert.equal(new Set(await dashes()).size, 3);
  await page.getByLabel('Curve', { exact: true }).selectOption('differential_expansion');
  assert.equal((await dashes()).length, 2);
  await page.getByText('Not in: steel hats.').waitFor();
  await page.getByText('C cooler hats: within limits').click();
  await page.getByText('Mind the made-up bolts.').waitFor();
  assert.deepEqual(faults, []);

  // On a phone the table scrolls in its own frame, says so, and keeps its first column in sight.
  await page.setViewportSize({ width: 390, height: 844 });
  await page.getByText('Drag the table sideways').waitFor();
  const frame = page.locator('.scroll:has(.comparison)');
  await frame.evaluate((element) => element.scrollTo(200, 0));
  const [inner, outer] = [await page.locator('.comparison tbody th').first().boundingBox(), await frame.boundingBox()];
  assert.ok(Math.abs(inner.x - outer.x) < 1, 'the first column stays');
  await page.close();
}

async function prints(context, url) {
  const { page, faults } = await open(context, url);
  await page.emulateMedia({ colorScheme: 'dark' });
  const pdf = await page.pdf({ format: 'A4', ...(pictures ? { path: join(pictures, 'page.pdf') } : {}) });
  assert.ok(pdf.length > 10000);
  assert.deepEqual(faults, []);
  await page.close();
}

// A run with hardly anything in it still opens and says what it can.
async function toleratesLittle(context) {
  const url = renderRun('little', {
    format: 1,
    sentence: 'Nothing was heated.',
    level: 'not judged',
    verdicts: [],
    cautions: ['An estimate.'],
  });
  const { page, faults } = await open(context, url);
  assert.match(await text(page, '.answer h2'), /Nothing was heated\./);
  await page.getByText('An estimate.').waitFor();
  assert.deepEqual(faults, []);
  await page.close();
}

await withBrowser(npmDir, async (context, folder) => {
  work = folder;
  const run = addSection(syntheticRun(kHostile));
  run.verdicts[0].advice = 'Mind <img src=x onerror=alert(2)>.';
  const url = renderRun('run', run);
  await readsAndSwitches(context, url, run);
  await cutsBarsAndCard(await open(context, url), run);
  for (const width of [360, 1280])
    for (const scheme of ['light', 'dark']) await isAccessible(context, url, width, scheme, pictures, 'run');
  await prints(context, url);
  const comparison = renderRun('comparison', syntheticComparison(kHostile));
  await compares(context, comparison);
  for (const width of [390, 1280])
    for (const scheme of ['light', 'dark']) await isAccessible(context, comparison, width, scheme, pictures, 'comparison');
  await prints(context, comparison);
  await toleratesLittle(context);
});
