// What the field app costs before it works without a network: every file that is kept on the device, each as a server with
// brotli 11 would send it; and what the first screen needs. Exit 1 when a limit is passed.
//   node bench/app_size.mjs [dist]
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { brotliCompressSync, constants } from 'node:zlib';

const FIRST_LIMIT = 250_000;
const ALL_LIMIT = 600_000;
const dist = process.argv[2] ?? fileURLToPath(new URL('../dist', import.meta.url));

function sent(name) {
    const bytes = readFileSync(join(dist, name));
    const packed = brotliCompressSync(bytes, { params: { [constants.BROTLI_PARAM_QUALITY]: 11, [constants.BROTLI_PARAM_LGWIN]: 24, [constants.BROTLI_PARAM_SIZE_HINT]: bytes.length } });
    return { name, plain: bytes.length, packed: Math.min(packed.length, bytes.length) };
}

// The service worker's own list is what is fetched; it comes on top.
const worker = readFileSync(join(dist, 'sw.js'), 'utf8');
const list = JSON.parse(/FILES = JSON\.parse\('(.*)'\)/.exec(worker)[1]).map((each) => (each === './' ? 'index.html' : each.slice(2)));
const files = [...list, 'sw.js'].map(sent).sort((a, b) => b.packed - a.packed);
// What the page names itself, before anything is tapped; the core and its worker load beside it.
const page = readFileSync(join(dist, 'index.html'), 'utf8');
const named = new Set(['index.html', 'icon.svg', ...[...page.matchAll(/(?:src|href)="\.\/([^"]+)"/g)].map((each) => each[1])]);
const sum = (some) => some.reduce((total, each) => total + each.packed, 0);
const first = files.filter((each) => named.has(each.name));

for (const each of files) console.log(`${String(each.packed).padStart(9)} of ${String(each.plain).padStart(9)}  ${named.has(each.name) ? 'first' : '     '}  ${each.name}`);
console.log(`first screen ${sum(first)} of ${FIRST_LIMIT} bytes, all ${sum(files)} of ${ALL_LIMIT} bytes (brotli 11)`);
if (named.size !== first.length) throw new Error('the page names a file that is not kept');
process.exitCode = sum(first) <= FIRST_LIMIT && sum(files) <= ALL_LIMIT ? 0 : 1;
