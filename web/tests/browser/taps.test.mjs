// What a reading costs in taps, and that the drawn staff, one gesture and the keys lead to the same entry.
import assert from 'node:assert/strict';
import test, { after, before } from 'node:test';
import { Actor } from './actor.mjs';
import { openBrowser, serveDist } from './browser.mjs';
import { THUMB } from './scenes.mjs';

let server;
before(async () => (server = await serveDist()));
after(() => server.close());

const BOOK = [
    { kind: 'book', format: 'fallwright', version: 1, title: 'Taps' },
    { kind: 'benchmark', point: 'BM', level: 50 },
    { kind: 'instrument', name: 'laser', type: 'rotating-laser' },
    { kind: 'line', name: 'D1', use: 'drain', profile: [{ ch: 0, level: 49 }, { ch: 20, gradient: '1 in 80 fall' }] },
    { kind: 'tolerance', line: 'D1', what: 'laid', below: -0.01, above: 0.01 },
    { kind: 'setup', name: 'S1', instrument: 'laser', place: { line: 'D1', ch: 0, off: 0 }, plane: { main: '1 in 80 fall', cross: 0, towards: 'D1' }, clamp: 2.4 },
    { kind: 'reading', setup: 'S1', point: 'BM', staff: 1.4, along: 0, across: 3 },
].map((each) => JSON.stringify(each) + '\n').join('');

async function reading(work) {
    const { page, end } = await openBrowser(THUMB);
    try {
        await page.goto(server.address);
        await page.getByTestId('open-file').setInputFiles({ name: 'taps.book.jsonl', mimeType: 'text/plain', buffer: Buffer.from(BOOK) });
        await page.locator('[data-kept="7"]').waitFor();
        const me = new Actor(page, 'thumb');
        await me.go('Read');
        await me.press(page.locator('.now'));
        await me.pick('Along', 'D1');
        await me.press(page.locator('.now'));
        await page.getByText('D1 0.000 laid').first().waitFor();
        await work(page, me);
    } finally {
        await end();
    }
}

async function lastEntry(page) {
    return page.evaluate(() => new Promise((resolve) => {
        const request = indexedDB.open('fallwright');
        request.onsuccess = () => {
            const all = request.result.transaction('lines').objectStore('lines').getAll();
            all.onsuccess = () => resolve(JSON.parse(all.result.at(-1).text));
        };
    }));
}

test('with mark and HIGH or LOW a reading takes at most 6 taps, the mark being where the staff should read', () => reading(async (page, me) => {
    await me.choose('Receiver');
    await page.getByText('Receiver held at 2.400 m, the target').waitFor();
    me.taps = 0;
    await me.receiver('HIGH', '12');
    await me.keep();
    await me.kept(8);
    assert.ok(me.taps <= 6, `${me.taps} taps`);
    const entry = await lastEntry(page);
    assert.deepEqual([entry.line, entry.ch, entry.what, entry.mark, entry.high], ['D1', 0, 'laid', 2.4, 0.012]);
    await page.getByText('D1 5.000 laid').first().waitFor();
}));

test('clamped, a reading takes at most 4 taps, and the next station stands there', () => reading(async (page, me) => {
    await me.choose('Clamped');
    me.taps = 0;
    await me.receiver('LOW', '12');
    await me.keep();
    await me.kept(8);
    assert.ok(me.taps <= 4, `${me.taps} taps`);
    assert.equal((await lastEntry(page)).low, 0.012);
    await page.getByText('D1 5.000 laid').first().waitFor();
}));

test('HIGH is one gesture: a drag up as far as the figure', () => reading(async (page, me) => {
    await me.choose('Clamped');
    const box = await page.locator('.drag').boundingBox();
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x, y - 45, { steps: 5 });
    await page.mouse.up();
    await page.locator('.answer', { hasText: 'high' }).waitFor();
    await me.keep();
    await me.kept(8);
    assert.equal((await lastEntry(page)).high, 0.009);
}));

test('the drawn staff is dragged and nudged to the figure', () => reading(async (page, me) => {
    await me.tap('Drawn staff');
    const face = page.getByRole('slider', { name: 'Drawn staff' });
    const before = Number(await face.getAttribute('aria-valuenow'));
    assert.equal(before, 2.4);
    const box = await face.boundingBox();
    await page.mouse.move(box.x + 40, box.y + 100);
    await page.mouse.down();
    await page.mouse.move(box.x + 40, box.y + 130, { steps: 5 });
    await page.mouse.up();
    const dragged = Number(await face.getAttribute('aria-valuenow'));
    assert.ok(dragged > before && dragged < before + 0.03, String(dragged));
    await me.tap('+1 mm, one step up');
    await me.keep();
    await me.kept(8);
    assert.equal((await lastEntry(page)).staff, Number((dragged + 0.001).toFixed(3)));
}));
