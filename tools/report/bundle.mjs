// Bundles the page and writes page.html (with an empty run) and the C++ source that embeds it.
// Usage, in a folder with src/ and node_modules/: node bundle.mjs [OUTPUT.cpp]
import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { build } from 'esbuild';

const output = process.argv[2] ?? 'page_template.cpp';
const uplotLicence = readFileSync('node_modules/uplot/LICENSE', 'utf8').trim().replace(/\s+/g, ' ');

async function bundle(entry, options = {}) {
  const result = await build({
    entryPoints: [entry],
    bundle: true,
    minify: true,
    write: false,
    charset: 'ascii',
    target: 'es2020',
    legalComments: 'none',
    logLevel: 'warning',
    ...options,
  });
  return result.outputFiles[0].text.trim();
}

// The policy allows exactly this script and this style sheet, by their hashes, and nothing from anywhere else.
const hash = (text) => `'sha256-${createHash('sha256').update(text, 'utf8').digest('base64')}'`;

const script = await bundle('src/main.ts', { format: 'iife', banner: { js: `/* Contains uPlot. ${uplotLicence} */` } });
const style = await bundle('src/page.css');
const policy =
  `default-src 'none'; script-src ${hash(script)}; style-src ${hash(style)}; img-src data:; ` +
  `base-uri 'none'; form-action 'none'`;
const page = readFileSync('src/page.html', 'utf8')
  .replace('@POLICY@', () => policy)
  .replace('@STYLE@', () => style)
  .replace('@SCRIPT@', () => script);

const [head, tail, ...more] = page.split('@RUN@');
if (tail === undefined || more.length > 0) throw new Error('page.html needs the mark @RUN@ once');
const literal = (text) => {
  if (text.includes(')HATRING"') || text.includes('\r')) throw new Error('the page does not fit a raw string literal');
  return `R"HATRING(${text})HATRING"`;
};
writeFileSync('page.html', head + 'null' + tail);
writeFileSync(
  output,
  `#include "tools/report/page_template.hpp"

namespace hatring::tools {

const std::string_view kPageHead = ${literal(head)};
const std::string_view kPageTail = ${literal(tail)};

}  // namespace hatring::tools
`,
);
console.log(`report page: ${(page.length / 1000).toFixed(0)} kB without a run`);
