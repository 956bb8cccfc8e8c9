// SPDX-License-Identifier: MIT
// node lock.test.mjs package-lock.json: the lock file pins versions and checksums, and names no download address.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';

const text = readFileSync(process.argv[2], 'utf8');
const { packages } = JSON.parse(text);
for (const [name, entry] of Object.entries(packages)) {
  assert.ok(!('resolved' in entry), `${name} names a download address`);
  assert.ok(name === '' || entry.integrity, `${name} has no checksum`);
}
assert.ok(Object.keys(packages).length > 1);
