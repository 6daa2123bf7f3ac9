// Parity: the WebAssembly module answers every request with the bytes of the native build.
//
//     node tests/parity/parity.mjs --wasm FILE --native FILE --emitted DIR --work DIR [--large N] BOOK...
//
// Compared are all pairs NAME.request.json, NAME.response.json in the emitted folder, as one document and, where a
// book opens, in two steps; then `evaluate` and `levels` of each BOOK; then `evaluate` of a made book with N readings
// (default 100,000), whose time and memory are printed. Ends with "N passed, N failed", exit 1 where one differs.

import { execFileSync } from 'node:child_process';
import { mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { parseArgs } from 'node:util';

import { EngineError, loadEngine } from '../../shells/wasm/loader.mjs';
import { largeBook } from './large_book.mjs';

const { values: given, positionals: books } = parseArgs({
    allowPositionals: true,
    options: {
        wasm: { type: 'string' },
        native: { type: 'string' },
        emitted: { type: 'string' },
        work: { type: 'string' },
        large: { type: 'string', default: '100000' },
    },
});

let passed = 0;
let failed = 0;

function around(text, at) {
    return JSON.stringify(text.subarray(Math.max(0, at - 60), at + 60).toString());
}

function compare(name, expected, actual) {
    if (Buffer.compare(expected, actual) === 0) {
        ++passed;
        return;
    }
    ++failed;
    let at = 0;
    while (at < expected.length && expected[at] === actual[at]) ++at;
    console.log(`FAILED ${name}: differs at byte ${at} (native ${expected.length} bytes, wasm ${actual.length})`);
    console.log(`    native ${around(expected, at)}`);
    console.log(`    wasm   ${around(actual, at)}`);
}

// A comparison that ends in a trap or without memory is a failure of its own.
function attempt(name, expected, work) {
    try {
        compare(name, expected, Buffer.from(work()));
    } catch (error) {
        if (!(error instanceof EngineError)) throw error;
        ++failed;
        console.log(`FAILED ${name}: ${error.code}: ${error.message}`);
    }
}

function inTwoSteps(engine, { book: text, ...request }) {
    let book;
    try {
        book = engine.open(text);
        return book.runBytes(request);
    } catch (error) {
        if (error.code !== 'refused') throw error;
        return error.answer;
    } finally {
        book?.close();
    }
}

function replay(engine, folder) {
    const names = readdirSync(folder).filter((name) => name.endsWith('.request.json')).sort();
    if (names.length === 0) throw new Error(`${folder} holds no requests`);
    for (const name of names) {
        const request = readFileSync(join(folder, name));
        const expected = readFileSync(join(folder, name.replace('.request.json', '.response.json')));
        attempt(name, expected, () => engine.answerBytes(request));
        const document = JSON.parse(request);
        if (document.book) attempt(`${name} in two steps`, expected, () => inTwoSteps(engine, document));
    }
    console.log(`${names.length} requests of the case files`);
}

// The command line ends its answer with a line break that is not part of the response.
function natively(verb, path) {
    const said = execFileSync(given.native, [verb, path, '--json'], { maxBuffer: 2 ** 30 });
    return said.at(-1) === 10 ? said.subarray(0, -1) : said;
}

function compareBooks(engine) {
    for (const path of books) {
        const book = readFileSync(path);
        for (const verb of ['evaluate', 'levels']) {
            attempt(`${verb} ${basename(path)}`, natively(verb, path),
                () => inTwoSteps(engine, { verb, book, options: {} }));
        }
    }
    console.log(`${books.length} books through evaluate and levels`);
}

function compareLarge(engine, count) {
    mkdirSync(given.work, { recursive: true });
    const path = join(given.work, `readings-${count}.book.jsonl`);
    writeFileSync(path, largeBook(count));
    const expected = natively('evaluate', path);
    const start = performance.now();
    attempt(`evaluate ${basename(path)}`, expected,
        () => inTwoSteps(engine, { verb: 'evaluate', book: readFileSync(path), options: {} }));
    const seconds = (performance.now() - start) / 1000;
    console.log(`${count} readings in WebAssembly: ${seconds.toFixed(2)} s, ` +
        `${(engine.memoryBytes / 2 ** 20).toFixed(0)} MiB, answer ${(expected.length / 2 ** 20).toFixed(1)} MiB`);
}

const engine = await loadEngine(readFileSync(given.wasm));
replay(engine, given.emitted);
compareBooks(engine);
compareLarge(engine, Number(given.large));
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 ? 0 : 1;
