// SPDX-License-Identifier: MIT
// node types.test.mjs NPM_DIR: the page's sources hold to the strict type rules of tsconfig.json.
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';

const npmDir = process.argv[2];
if (!existsSync(join(npmDir, 'installed'))) {
  console.log('skipped: the npm packages of the report are missing');
  process.exit(77);
}
const run = spawnSync(process.execPath, ['node_modules/typescript/bin/tsc', '-p', 'tsconfig.json'], {
  cwd: npmDir,
  stdio: 'inherit',
});
process.exit(run.status ?? 1);
