// Tests of the loader against the module as built. Run: FALLWRIGHT_WASM=build/wasm/shells/wasm/fallwright.wasm node --test
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';

import { EngineError, loadEngine } from './loader.mjs';

const bytes = readFileSync(process.env.FALLWRIGHT_WASM);
const bookText = [
    { kind: 'book', format: 'fallwright', version: 1 },
    { kind: 'benchmark', point: 'BM1', level: 10 },
    { kind: 'instrument', name: 'L', type: 'optical-level' },
    { kind: 'setup', name: 'S1', instrument: 'L' },
    { kind: 'reading', point: 'BM1', staff: 1.5 },
    { kind: 'reading', point: 'P', staff: 1.25 },
].map((entry) => JSON.stringify(entry)).join('\n');
const levels = { verb: 'levels', options: {} };

function failure(work) {
    try {
        work();
    } catch (error) {
        assert.ok(error instanceof EngineError, String(error));
        return error;
    }
    throw new Error('nothing was thrown');
}

test('the module exports what exports.txt lists, and asks for nothing but memory growth, writing and exit', async () => {
    const module = await WebAssembly.compile(bytes);
    const own = WebAssembly.Module.exports(module).map((each) => each.name);
    const listed = readFileSync(new URL('exports.txt', import.meta.url), 'utf8').split('\n').filter(Boolean);
    assert.ok(listed.length <= 8);
    for (const name of listed) assert.ok(own.includes(name.slice(1)), name);
    const asked = WebAssembly.Module.imports(module).map((each) => each.name);
    const known = ['emscripten_notify_memory_growth', 'fd_close', 'fd_seek', 'fd_write', 'proc_exit'];
    assert.deepEqual(asked.filter((name) => !known.includes(name)), []);
});

test('the version is the one of the build', async () => {
    assert.match((await loadEngine(bytes)).version, /^\d+\.\d+\.\d+$/);
});

test('a book opens once and answers as often as asked, the same each time', async () => {
    const book = (await loadEngine(bytes)).open(bookText);
    const first = book.run(levels);
    assert.equal(JSON.parse(first).levels.find((row) => row.point === 'P').level, 10.25);
    assert.equal(book.run(JSON.stringify(levels)), first);
    book.close();
    book.close();
    assert.equal(failure(() => book.run(levels)).code, 'lost');
});

test('the whole document as one request gives the same answer', async () => {
    const engine = await loadEngine(bytes);
    assert.equal(engine.answer({ ...levels, book: bookText }), engine.open(bookText).run(levels));
});

test('what is no book is refused with the finding', async () => {
    const engine = await loadEngine(bytes);
    const refused = failure(() => engine.open('not a book'));
    assert.equal(refused.code, 'refused');
    assert.equal(refused.finding.code, 'not-a-book');
    assert.ok(engine.open(bookText).run(levels));
});

test('a request that is no JSON is an answered error, and the engine goes on', async () => {
    const engine = await loadEngine(bytes);
    const book = engine.open(bookText);
    for (const request of ['', '{', '[]', '{"verb":7}', new Uint8Array([255, 254])]) {
        assert.ok(JSON.parse(book.run(request)).error, String(request));
    }
    assert.ok(book.run(levels));
});

test('memory grows while it is needed and is used again after close', async () => {
    const engine = await loadEngine(bytes);
    const remark = JSON.stringify({ kind: 'remark', text: 'x'.repeat(30000) });
    const large = bookText + '\n' + (remark + '\n').repeat(1000);
    const before = engine.memoryBytes;
    engine.open(large).close();
    const after = engine.memoryBytes;
    assert.ok(after > before);
    for (let i = 0; i < 10; ++i) engine.open(large).close();
    assert.ok(engine.memoryBytes <= 1.5 * after, `${after} grew to ${engine.memoryBytes}`);
});

test('without memory the call fails, the instance is given up, and the next call has a new one', async () => {
    const engine = await loadEngine(bytes);
    const book = engine.open(bookText);
    const answer = book.run(levels);
    assert.equal(failure(() => engine.open(new Uint8Array(2 ** 31))).code, 'memory');
    assert.equal(failure(() => book.run(levels)).code, 'lost');
    book.close();
    assert.equal(engine.open(bookText).run(levels), answer);
});

test('a trap inside fails the call, and the next call has a new instance', async () => {
    const engine = await loadEngine(bytes);
    const book = engine.open(bookText);
    const answer = book.run(levels);
    const outside = 0xfffffff0;
    assert.equal(failure(() => engine.runBytes(outside, 0, levels)).code, 'trap');
    assert.equal(failure(() => book.run(levels)).code, 'lost');
    assert.equal(engine.open(bookText).run(levels), answer);
});
