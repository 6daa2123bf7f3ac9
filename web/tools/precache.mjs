// Writes dist/sw.js: the service worker with the list of everything in dist/ and a version made from its content.
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';

const dist = fileURLToPath(new URL('../../dist', import.meta.url));
const template = fileURLToPath(new URL('../src/sw/sw.js', import.meta.url));

function filesBelow(folder) {
    return readdirSync(folder).flatMap((name) => {
        const path = join(folder, name);
        return statSync(path).isDirectory() ? filesBelow(path) : [path];
    });
}

const files = filesBelow(dist).map((path) => relative(dist, path)).filter((name) => name !== 'sw.js').sort();
const hash = createHash('sha256');
for (const name of files) hash.update(name).update('\0').update(readFileSync(join(dist, name)));
const code = readFileSync(template, 'utf8');
hash.update(code);
const version = hash.digest('hex').slice(0, 16);
const list = files.map((name) => (name === 'index.html' ? './' : `./${name}`));
writeFileSync(join(dist, 'sw.js'), code.replace('__VERSION__', version).replace('__FILES__', JSON.stringify(list)));
console.log(`precached: ${list.length} files, version ${version}`);
