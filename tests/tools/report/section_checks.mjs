// SPDX-License-Identifier: MIT
// The cut through the disc, the margin bars and the session card, on an open page of a run with addSection().
import assert from 'node:assert/strict';

const celsius = (kelvin) => String(Math.round(kelvin - 273.15));

export async function cutsBarsAndCard({ page, faults }, run) {
  // Margin bars: closest first, the upright line at the same place in each, over the limit past it.
  const bars = await page.locator('.margins li').evaluateAll((rows) =>
    rows.map((row) => ({
      text: row.querySelector('p').textContent,
      bar: parseFloat(row.querySelector('.bar').getAttribute('width')),
      limit: parseFloat(row.querySelector('.limit:not(.halo)').getAttribute('x1')),
    })),
  );
  const judged = run.verdicts.filter(({ used }) => used !== undefined);
  assert.equal(bars.length, Math.min(judged.length, 10));
  for (const { text, bar, limit } of bars) assert.equal(bar > limit, text.includes('over the limit'), text);
  assert.deepEqual(
    bars.map(({ bar }) => bar),
    bars.map(({ bar }) => bar).sort((a, b) => b - a),
  );

  // The cut opens at the hottest face; every value of the moment stands at its part.
  await page.locator('.cross-section').waitFor(); // drawn once its width is known
  const cut = page.locator('section:has(.cross-section)');
  const front = run.series.front.temperature;
  const hottest = front.ring_face_inboard.indexOf(Math.max(...front.ring_face_inboard));
  const shown = () => cut.locator('.cross-section text').allTextContents();
  const has = async (letter, kelvin) =>
    (await shown()).some((text) => text.startsWith(letter) && text.endsWith(` ${celsius(kelvin)}`));
  assert.ok(await has('B', front.ring_face_inboard[hottest]));
  assert.ok(await has('E', front.hat_flange[hottest]));
  assert.equal((await shown()).length, 15);
  const slider = cut.getByRole('slider');
  await slider.focus();
  await page.keyboard.press('ArrowRight');
  assert.ok(await has('E', front.hat_flange[hottest + 1]), 'one key press is one drawn moment');
  assert.match(await slider.getAttribute('aria-valuetext'), /lap \d+.*Ring face, outboard \d+\s°C/i);
  await cut.getByRole('button', { name: 'brake fluid' }).click();
  assert.ok(await has('N', Math.max(...front.fluid)));

  // One-piece and solid: no lug, no fastener, no passage; one piston has no outboard cylinder.
  await cut.getByLabel('Disc drawn').selectOption('rear');
  assert.equal((await shown()).length, 13);
  assert.equal(await cut.locator('.cross-section .open, .cross-section .vane').count(), 0);
  assert.match(await cut.locator('p').first().innerText(), /solid ring, cast in one piece/);

  // The card: what paint on the edge of the disc is expected to read, and room to write.
  await page.getByText('Session card to print').click();
  const row = page.locator('.card tr:has(th:text("outer edge of ring"))');
  const { value_low: low, value_high: high } = run.peaks.front.ring_mean;
  assert.equal(await row.locator('td').nth(1).innerText(), `${celsius(low)} to ${celsius(high)}`);
  assert.equal(await row.locator('.box').count(), 2);
  assert.match(await page.locator('.card').innerText(), /lap 1 to lap 8 \(8 laps\)/);

  // Printed alone it is one page.
  await page.evaluate(() => document.documentElement.classList.add('card-only'));
  for (const format of ['A4', 'Letter']) {
    const pdf = (await page.pdf({ format })).toString('latin1');
    assert.equal(pdf.match(/\/Type\s*\/Page\b/g)?.length, 1, `${format}: one page`);
  }
  assert.deepEqual(faults, []);
  await page.close();
}
