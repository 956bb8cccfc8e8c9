// SPDX-License-Identifier: MIT
// node trace.test.mjs HATRING NPM_DIR CONFIGS [SCREENSHOT_DIR]: the page of a logged lap says what --json says.
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { isAccessible, open, text, withBrowser } from './browser.mjs';

const [hatring, npmDir, configs, pictures] = process.argv.slice(2);
const log = join(configs, 'logs', 'tern_hollow.csv');

function trace(out, ...more) {
  const run = spawnSync(hatring, ['trace', log, '--out', `${out}.yaml`, '--json', ...more], { encoding: 'utf8' });
  assert.equal(run.status, 0, run.stderr);
  return { json: JSON.parse(run.stdout), url: pathToFileURL(`${out}.html`).href };
}

const table = (page, caption) =>
  page.locator('div', { has: page.locator('> .caption', { hasText: caption }) }).last().locator('tbody tr');

async function oneLap(context, out) {
  const { json, url } = trace(out, '--car', join(configs, 'cars', 'light_track_car.yaml'));
  const { page, faults } = await open(context, url);
  assert.match(await text(page, '.answer h2'), /^Lap 2: 1:33\.80 over 3\.00\skm\. 7 brakings/);
  const rows = table(page, 'Every braking of the lap');
  assert.equal(await rows.count(), json.brakings.length);
  const cells = await rows.nth(3).locator('td').allInnerTexts();
  const { distance, entry_speed, slowest, rounding, energy } = json.brakings[3];
  assert.equal(cells[0], Math.round(distance).toLocaleString('en-GB'));
  assert.equal(cells[1], String(Math.round(3.6 * entry_speed)));
  assert.equal(cells[3], String(Math.round(3.6 * slowest)));
  assert.equal(cells[4], `${Math.round(100 * rounding)}\u00a0%`);
  assert.equal(cells[7], Math.round(energy / 1e3).toLocaleString('en-GB'));
  assert.equal(await table(page, 'Every guess').count(), json.guesses.length);
  await page.getByRole('radio', { name: 'US' }).check({ force: true });
  assert.equal(await rows.nth(3).locator('td').nth(1).innerText(), String(Math.round(entry_speed / 0.44704)));
  assert.match(await text(page, '.answer h2'), /over 1\.86\smi/);
  assert.deepEqual(faults, []);
  await page.close();
}

async function twoLaps(context, out) {
  const { json, url } = trace(out, '--against-lap', '1');
  const { page, faults } = await open(context, url);
  assert.match(await text(page, '.answer h2'), /0\.20\ss faster than tern_hollow\.csv, lap 1/);
  const rows = table(page, 'This lap less');
  assert.equal(await rows.count(), json.against.brakings.length);
  const { this: mine, other } = json.against.brakings[0];
  const metres = mine.distance - other.distance;
  assert.equal(
    await rows.first().locator('td').nth(1).innerText(),
    `${Math.round(Math.abs(metres))}\u00a0m ${metres < 0 ? 'earlier' : 'later'}`,
  );
  // Both charts and the readout share one cursor; the last place holds the whole loss.
  const slider = page.getByRole('slider', { name: 'Place shown' });
  await slider.focus();
  await page.keyboard.press('End');
  assert.match(await slider.getAttribute('aria-valuetext'), /Time lost so far [\u2212-]0\.20\ss/);
  await page.getByText('The same as a table').click();
  await table(page, 'Speed along the lap').nth(49).waitFor();
  assert.deepEqual(faults, []);
  await page.close();
  for (const width of [390, 1280])
    for (const scheme of ['light', 'dark']) await isAccessible(context, url, width, scheme, pictures, 'trace');
}

// A log of any name, with a column of any name, is text.
async function hostileNames(context, work) {
  const name = '<img src=x onerror=alert(1)>.csv';
  const rows = readFileSync(log, 'utf8').replace('Speed (MPH)', 'Speed <script>alert(2)</script> (MPH)');
  writeFileSync(join(work, name), rows);
  const { url } = trace(join(work, 'hostile'), '--against', join(work, name), '--against-lap', '1');
  const own = spawnSync(hatring, ['trace', join(work, name), '--out', join(work, 'own.yaml'), '--quiet']);
  assert.equal(own.status, 0, String(own.stderr));
  for (const address of [url, pathToFileURL(join(work, 'own.html')).href]) {
    const { page, faults } = await open(context, address);
    assert.match(await text(page, 'body'), /<img src=x onerror=alert\(1\)>/);
    assert.equal(await page.locator('img').count(), 0);
    assert.deepEqual(faults, []);
    await page.close();
  }
}

await withBrowser(npmDir, async (context, work) => {
  await oneLap(context, join(work, 'one'));
  await twoLaps(context, join(work, 'two'));
  await hostileNames(context, work);
});
