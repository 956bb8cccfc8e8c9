// SPDX-License-Identifier: MIT
// node real.test.mjs HATRING NPM_DIR CONFIGS [SCREENSHOT_DIR]: the page of a real run says what --json says.
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { statSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { isAccessible, open, settled, text, withBrowser } from './browser.mjs';

const [hatring, npmDir, configs, pictures] = process.argv.slice(2);
const kGap = '\u00a0';
const axles = ['front', 'rear'];

// A verdict over its limit exits with 1, which is no failure here.
const simulate = (...words) => run('simulate', ...words);
function run(command, session, out, ...more) {
  const ran = spawnSync(
    hatring,
    [command, join(configs, session), '--out', out, '--json', '--allow-include', configs, ...more],
    { encoding: 'utf8', maxBuffer: 1e9 },
  );
  assert.ok(ran.status === 0 || ran.status === 1, ran.stderr);
  return JSON.parse(ran.stdout);
}

// What the result file holds, read by Debian's h5py: an outside witness for the numbers on the page.
function fromResult(file, script) {
  const code = `import h5py, json, sys\nf = h5py.File(sys.argv[1])\nprint(json.dumps(${script}))`;
  const run = spawnSync('/usr/bin/python3', ['-c', code, file], { encoding: 'utf8' });
  assert.equal(run.status, 0, run.stderr);
  return JSON.parse(run.stdout);
}

async function asInResultFile(context, url, file) {
  const { page, faults } = await open(context, url);
  const celsius = (kelvin) => `${Math.round(kelvin - 273.15)}${kGap}°C`;
  for (const [axle, letter] of [['front', 'A'], ['rear', 'A']]) {
    await page.getByRole('radio', { name: axle }).check({ force: true });
    // The chart opens at the hottest face; lap 3 at its own hottest face.
    const key = page.locator('section:has(h2:text("get hot")) .key li', { hasText: letter }).first();
    const face = `f['/${axle}/temperature/ring_face_outboard'][:]`;
    const highest = fromResult(file, `float(max(${face}))`);
    await page.getByLabel('Show', { exact: true }).selectOption('-1');
    assert.equal(await key.locator('strong').innerText(), celsius(highest));
    const lap3 = page.getByLabel('Show', { exact: true }).locator('option', { hasText: /^lap 3,/ });
    await page.getByLabel('Show', { exact: true }).selectOption(await lap3.getAttribute('value'));
    const third = fromResult(file, `float(max(${face}[f['/lap'][:] == 3]))`);
    assert.equal(await key.locator('strong').innerText(), celsius(third));
  }
  // The bars of the corners: heat of the wheel adds up to what the file counts as friction in that lap.
  await page.getByRole('radio', { name: 'front' }).check({ force: true });
  const heats = await page.locator('.zones li div:nth-of-type(1) .number').allInnerTexts();
  const shown = heats.reduce((sum, text) => sum + Number(text.replace(/[^\d]/g, '')), 0);
  const lap = Number((await text(page, 'section:has(.zones) .caption')).match(/lap (\d+)/)[1]);
  const counted = fromResult(
    file,
    `[float(max(h[f['/lap'][:] == ${lap}]) - min(h[f['/lap'][:] == ${lap}])) for h in [f['/front/heat/friction'][:]]][0]`,
  );
  assert.ok(Math.abs(shown / (counted / 1e3) - 1) < 0.02, `${shown} kJ shown, ${counted / 1e3} kJ in the file`);
  assert.deepEqual(faults, []);
  await page.close();
}

// A printer takes the page as it is when asked: every fold must be full by then.
async function printsWhatIsFolded(context, url) {
  const { page } = await open(context, url);
  const full = await page.evaluate(() => {
    dispatchEvent(new Event('beforeprint'));
    const folds = [...document.querySelectorAll('details:not(.screen-only)')];
    const empty = folds.filter((fold) => !fold.open || fold.childElementCount < 2).map((fold) => fold.innerText);
    return { empty, assumed: document.querySelectorAll('.assumed li').length, folds: folds.length };
  });
  assert.deepEqual(full.empty, []);
  assert.ok(full.folds >= 3 && full.assumed > 20, JSON.stringify(full));
  await page.evaluate(() => dispatchEvent(new Event('afterprint')));
  assert.equal(await page.locator('.assumed li').first().isVisible(), false);
  await page.close();
}

// Nothing metric is left on a page in US units but the values as the config takes them.
async function convertsEverything(context, url) {
  const { page } = await open(context, url);
  await page.getByRole('radio', { name: 'US' }).check({ force: true });
  await page.evaluate(() => document.querySelectorAll('details').forEach((fold) => (fold.open = true)));
  await page.locator('.assumed li').first().waitFor();
  const left = await page.evaluate(() => {
    document.querySelectorAll('.assumed').forEach((list) => list.remove());
    return [...document.querySelectorAll('main p, main td, main th, main dd, main li, main text, main option')]
      .map((element) => element.textContent)
      .filter((words) => /°C|degC|\bkm|\d\s(mm|m|K|kJ|kW|kN|N|bar|MPa|kg|µm)\b/.test(words));
  });
  assert.deepEqual(left, []);
  await page.close();
}

async function saysThatTablesScroll(context, url) {
  const { page } = await open(context, url);
  await page.setViewportSize({ width: 390, height: 844 });
  await settled(page);
  const dumb = await page.evaluate(() =>
    [...document.querySelectorAll('.scroll')]
      .filter((frame) => frame.scrollWidth > frame.clientWidth + 1 && !frame.previousElementSibling?.checkVisibility())
      .map((frame) => frame.innerText.slice(0, 60)),
  );
  assert.deepEqual(dumb, []);
  await page.close();
}

// Decimal comma and day before month for whoever lives with them; the sentence of the program stays as it is.
async function inGerman(context, url, json) {
  const { page, faults } = await open(context, url);
  const float = page.locator('.words', { hasText: 'needed by this session, and fitted' }).locator('tbody tr').first();
  assert.equal(await float.locator('td').first().innerText(), (1e3 * json.joint.front.needed_float).toFixed(2).replace('.', ','));
  assert.match(await text(page, '.moment'), /^\d+:\d\d,\d of the session/);
  assert.match(await text(page, 'header p'), /\d\d\.\d\d\.\d{4}, \d\d:\d\d/);
  const points = await page.evaluate(() =>
    [...document.querySelectorAll('main td, main strong, main dd, .zones .number')]
      .map((element) => element.textContent)
      .filter((words) => /\d\.\d(?!\d\d)/.test(words) && !/\b(from|to|after) memory|EN \d|DIN|degC/.test(words)),
  );
  assert.deepEqual(points, []);
  assert.deepEqual(faults, []);
  await page.close();
}

const cellOf = (page, row, i) => page.locator(`tr:has(th:text-is("${row}")) td`).nth(i);
const find = (list, name) => list.find((row) => row.name === name);

async function jointAndLife(context, url, json) {
  const { page, faults } = await open(context, url);
  // Float needed against float fitted, with the band.
  const mm = (metres) => (1e3 * metres).toFixed(2);
  const { front } = json.joint;
  const float = page.locator('.words', { hasText: 'needed by this session, and fitted' }).locator('tbody tr').first();
  const cells = await float.locator('td').allInnerTexts();
  assert.equal(cells[0], mm(front.needed_float));
  assert.equal(cells[1], `${mm(front.needed_float_low)} to ${mm(front.needed_float_high)}`);
  assert.equal(cells[2], mm(front.float_clearance));
  assert.match(cells[4], front.sign_changes.length ? new RegExp(`^${front.sign_changes.length}: `) : /^none$/);

  // What the joint carries and how fast it changes, in both systems of units.
  for (const axle of axles) {
    await page.getByRole('radio', { name: axle }).check({ force: true });
    const bore = find(json.extremes[axle], 'bore_hoop');
    assert.equal(
      await cellOf(page, 'Ring bore: hoop tension', 0).innerText(),
      `${Math.round(bore.highest / 1e6)}${kGap}MPa`,
    );
    assert.match(await cellOf(page, 'Ring bore: hoop tension', 1).innerText(), new RegExp(bore.highest_place.span));
    const face = page.locator('.words', { hasText: 'Fastest changes' }).locator('tbody tr').first();
    const rise = find(json.rates[axle], 'ring_face').rise;
    assert.equal(await face.locator('td').first().innerText(), `${Math.round(rise)}${kGap}°C/s`);
    await page.getByRole('radio', { name: 'US' }).check({ force: true });
    assert.equal(await face.locator('td').first().innerText(), `${Math.round(1.8 * rise)}${kGap}°F/s`);
    await page.getByRole('radio', { name: 'Metric' }).check({ force: true });
    const strength = json.softening[axle].strength_left;
    if (json.softening[axle].applicable)
      await page.getByText(`The ${axle} hat keeps ${Math.round(100 * strength)}${kGap}%`).waitFor();
    assert.equal(
      await page.locator('.words', { hasText: `Life, ${axle} disc` }).locator('tbody tr').count(),
      json.damage[axle].length,
    );
    // Slip and clamping force are drawn where the joint is bolted.
    const bolted = find(json.extremes[axle], 'slip') !== undefined;
    assert.equal(await page.getByRole('heading', { name: 'Slip of the clamped faces' }).isVisible(), bolted);
  }

  // Two digits, and ten times either way.
  await page.getByRole('radio', { name: 'front' }).check({ force: true });
  const shortest = json.damage.front[0];
  const life = (await page.locator('.words', { hasText: 'Life, front disc' }).locator('td').first().innerText()).match(
    /^([\d,]+), could be ([\d,]+) or (.+)$/,
  );
  const [likely, low] = life.slice(1, 3).map((number) => Number(number.replace(/,/g, '')));
  assert.ok(Math.abs(likely / shortest.sessions_left - 1) < 0.06 && Math.abs((10 * low) / likely - 1) < 0.06);

  const shock = json.verdicts.filter(({ key }) => key === 'shock');
  const rule = await text(page, '.shock');
  assert.match(rule, new RegExp(`passes ${Math.round(100 * shock[0].limit)}\\s% of the iron`));
  for (const { axle, value } of shock) assert.match(rule, new RegExp(`${axle} ${Math.round(100 * value)}\\s%`));
  assert.deepEqual(faults, []);
  await page.close();
}

async function pedal(context, url, json) {
  const { page, faults } = await open(context, url);
  const laps = page.locator('div', { has: page.locator('> .caption', { hasText: 'Pedal lap by lap' }) }).last();
  assert.equal(await laps.locator('tbody tr').count(), json.pedal.laps.length);
  const last = json.pedal.laps.findLast(({ growth }) => growth !== null);
  const cells = await laps.locator(`tbody tr:has(th:text-is("${last.label}")) td`).allInnerTexts();
  assert.equal(cells[0], String(Math.round(last.front_pressure / 1e5)));
  assert.equal(cells[1], last.front_friction.toFixed(2));
  assert.equal(cells[5], `${last.growth < 0 ? '\u2212' : '+'}${Math.round(100 * Math.abs(last.growth))}${kGap}%`);
  const left = await cellOf(page, 'Friction layer left', 1).innerText();
  assert.ok(left.startsWith(`${(1e3 * json.pads.rear.left).toFixed(2)}${kGap}mm`), left);
  assert.equal(await page.locator('.fault').count(), json.symptoms.length);
  assert.equal(await page.locator('.fault.near').count(), json.symptoms.filter(({ seen }) => seen).length);
  for (const { shows } of json.symptoms)
    await page.getByText(shows.slice(1)).waitFor();

  // The charts follow the lap that is picked.
  await page.getByLabel('Pedal over', { exact: true }).selectOption({ index: 3 });
  assert.match(await page.locator('section:has(h2:text("pedal feel")) .moment').innerText(), /km\/h$/);
  assert.deepEqual(faults, []);
  await page.close();
}

// What only some sessions have: the stops of a bedding plan, a puddle on the lap.
async function beddingAndWet(context, work) {
  const out = join(work, 'bedding');
  const json = simulate('duties/bedding.yaml', out, '--no-band', '--set', 'wet_patches=[{from: 0 m, to: 50 m}]');
  const url = pathToFileURL(join(out, 'report.html')).href;
  const { page, faults } = await open(context, url);
  for (const axle of axles) {
    const { stops } = json.bedding[axle];
    const table = page.locator('div', { has: page.locator('> .caption', { hasText: `Bedding stops, ${axle}` }) }).last();
    const peaks = await table.locator('tbody tr td:nth-child(3)').allInnerTexts();
    assert.deepEqual(peaks, stops.map(({ face_peak }) => String(Math.round(face_peak - 273.15))));
    const over = await table.getByText('over the ceiling').count();
    assert.equal(over, json.bedding[axle].over);
    await page.getByRole('radio', { name: axle }).check({ force: true });
    assert.equal(await page.getByText(`Caution, ${axle} faces at a wet patch`).count(), json.wet_patches[axle].length);
  }
  assert.deepEqual(faults, []);
  await page.close();
  await isAccessible(context, url, 390, 'light', pictures, 'bedding');
}

async function fullBand(context, work) {
  const out = join(work, 'band');
  const json = simulate('demo.yaml', out, '--mesh', 'lump', '--band', '--band-runs', '16');
  const url = pathToFileURL(join(out, 'report.html')).href;
  const { page, faults } = await open(context, url);
  await page.getByText(json.full_band.sentence).waitFor();
  const readings = page.locator('div', { has: page.locator('> .caption', { hasText: 'What would narrow' }) }).last();
  const order = await readings.locator('tbody td:nth-child(3)').allInnerTexts();
  assert.deepEqual(order, json.full_band.order.map((i) => json.full_band.inputs[i].reading));
  const first = json.verdicts.find(({ doubt, level }) => doubt.inputs.length > 0 && level !== 'within limits');
  const limits = page.locator('div', { has: page.locator('> .caption', { hasText: 'Low, likely and high' }) }).last();
  const kept = await limits.locator('tbody tr').first().locator('td').nth(3).innerText();
  assert.equal(kept, `${Math.round(100 * first.doubt.kept)}${kGap}%`);
  assert.deepEqual(faults, []);
  await page.close();
  await convertsEverything(context, url);
  await isAccessible(context, url, 390, 'light', pictures, 'band');
}

// The best of plans that all pass a limit is not called chosen.
async function leastBad(context, work) {
  const out = join(work, 'least-bad');
  const json = run('cooldown', 'demo.yaml', out, '--mesh', 'lump', '--set', 'cooldown.laps=[0, 1]', '--set', 'limits.pad_print=40 degC');
  assert.ok(json.plans.every(({ holds }) => !holds));
  const { page, faults } = await open(context, pathToFileURL(join(out, 'report.html')).href);
  await page.getByRole('heading', { name: 'What does the least bad plan save?' }).waitFor();
  assert.doesNotMatch(await page.locator('main').textContent(), /chosen/i);
  assert.deepEqual(faults, []);
  await page.close();
}

await withBrowser(npmDir, async (context, work) => {
  const out = join(work, 'result');
  const json = simulate('demo.yaml', out);
  const report = join(out, 'report.html');
  assert.ok(statSync(report).size < 1.5e6, 'the page stays small');
  const url = pathToFileURL(report).href;
  await jointAndLife(context, url, json);
  await pedal(context, url, json);
  await asInResultFile(context, url, join(out, 'result.h5'));
  await printsWhatIsFolded(context, url);
  await saysThatTablesScroll(context, url);
  await convertsEverything(context, url);
  const cool = join(work, 'cooldown');
  run('cooldown', 'demo.yaml', cool, '--mesh', 'lump', '--set', 'cooldown.laps=[0, 1]');
  await isAccessible(context, pathToFileURL(join(cool, 'report.html')).href, 390, 'light', pictures, 'cooldown');
  await leastBad(context, work);
  await beddingAndWet(context, work);
  await fullBand(context, work);
  await withBrowser(npmDir, (german) => inGerman(german, url, json), 'de-DE');
  for (const width of [390, 1280])
    for (const scheme of ['light', 'dark']) await isAccessible(context, url, width, scheme, pictures, 'real');
});
