// Nothing is lost, and nothing is called kept before it is: writes, reloads, kills, two windows, a full store, clocks.
import assert from 'node:assert/strict';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import test, { after, before } from 'node:test';
import { Actor } from './actor.mjs';
import { openBrowser, serveDist } from './browser.mjs';
import { firstVisit, THUMB } from './scenes.mjs';

let server;
before(async () => (server = await serveDist()));
after(() => server.close());

/** A job with one benchmark and a tripod, in Read; four entries are kept. */
async function ready(page) {
    const me = new Actor(page, 'thumb');
    await page.goto(`${server.address}#/`);
    await me.tap('New job');
    await me.unfold('Benchmarks');
    await me.type('Its level', '50');
    await me.tap('Add the benchmark');
    await me.kept(2);
    await me.go('Set up');
    await me.tap('It stands');
    await me.kept(4);
    await me.go('Read');
    await page.locator('.now', { hasText: 'BM1' }).waitFor();
    return me;
}

async function withBrowser(work, options = {}) {
    const browser = await openBrowser({ ...THUMB, ...options });
    try {
        await work(browser);
    } finally {
        await browser.end();
    }
}

// Every write transaction, in the page: how durable it was asked for, and when it completed against what was shown.
function spy() {
    globalThis.writes = [];
    const open = IDBDatabase.prototype.transaction;
    IDBDatabase.prototype.transaction = function (stores, mode, options) {
        const transaction = open.call(this, stores, mode, options);
        if (mode === 'readwrite') {
            const write = { stores: [...stores], durability: transaction.durability, asked: options?.durability, done: false };
            globalThis.writes.push(write);
            transaction.addEventListener('complete', () => (write.done = true));
        }
        return transaction;
    };
    // Completion is told late, so that anything shown on a request's success alone would be seen to be early.
    const listen = IDBTransaction.prototype.addEventListener;
    IDBTransaction.prototype.addEventListener = function (type, listener, options) {
        const late = type === 'complete' && globalThis.late ? (event) => setTimeout(() => listener.call(this, event), globalThis.late) : listener;
        return listen.call(this, type, late, options);
    };
}

test('every write asks for strict durability and is shown when its transaction completes', () => withBrowser(async ({ context, page }) => {
    await context.addInitScript(spy);
    const me = await ready(page);
    await page.evaluate(() => (globalThis.late = 1500));
    await me.figures('1432');
    await page.locator('.answer', { hasText: '50.000' }).waitFor();
    const before = await page.evaluate(() => globalThis.writes.length);
    await me.keep();
    await page.waitForFunction((count) => globalThis.writes.length > count, before);
    await page.waitForTimeout(500);
    assert.equal(await me.count(), 4, 'shown as kept before the transaction completed');
    await me.kept(5);
    const writes = await page.evaluate(() => globalThis.writes);
    assert.ok(writes.length >= 4);
    for (const write of writes) assert.deepEqual([write.asked, write.durability, write.done], ['strict', 'strict', true], write.stores.join());
}));

test('a reload in the middle of an entry loses neither the entries nor what is half typed', () => withBrowser(async ({ page }) => {
    const me = await ready(page);
    await me.figures('1432');
    await me.keep();
    await me.kept(5);
    await me.figures('15');
    await page.reload();
    await me.kept(5);
    await page.locator('output.figure', { hasText: '0.015' }).waitFor();
    await page.locator('.last .item', { hasText: 'BM1' }).waitFor();
}));

test('a browser killed while entering has every entry that it had called kept', { timeout: 120_000 }, async () => {
    const profile = mkdtempSync(join(tmpdir(), 'fallwright-killed-'));
    try {
        for (const round of [1, 2]) {
            const { context, page } = await openBrowser(THUMB, profile);
            const me = await ready(page);
            const address = page.url();
            const session = await context.newCDPSession(page);
            const browser = await context.browser()?.newBrowserCDPSession() ?? session;
            const { processInfo } = await browser.send('SystemInfo.getProcessInfo');
            const pid = processInfo.find((each) => each.type === 'browser').id;
            let acknowledged = 4;
            const watching = (async () => {
                for (;;) acknowledged = Math.max(acknowledged, await me.count());
            })().catch(() => undefined);
            const entering = (async () => {
                for (let i = 0; ; i += 1) {
                    await page.keyboard.type(String(1400 + i));
                    await page.keyboard.press('Enter');
                }
            })().catch(() => undefined);
            await page.waitForTimeout(1500 + 700 * round);
            process.kill(pid, 'SIGKILL');
            await Promise.all([watching, entering]);
            await context.close().catch(() => undefined);
            for (const lock of ['SingletonLock', 'SingletonCookie', 'SingletonSocket']) rmSync(join(profile, lock), { force: true });
            assert.ok(acknowledged > 4, 'nothing was entered before the kill');
            const again = await openBrowser(THUMB, profile);
            await again.page.goto(address);
            await again.page.locator('[data-kept]').waitFor();
            const there = await new Actor(again.page, 'thumb').count();
            assert.ok(there >= acknowledged, `${acknowledged} were acknowledged, ${there} are there`);
            await again.context.close();
        }
    } finally {
        rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
    }
});

test('two windows: one writes, the other follows; writing can be taken over', () => withBrowser(async ({ context, page }) => {
    const me = await ready(page);
    const other = await context.newPage();
    await other.goto(page.url());
    const second = new Actor(other, 'thumb');
    await other.locator('[data-claim="elsewhere"]').first().waitFor();
    assert.ok(await other.getByRole('button', { name: 'Keep', exact: true }).isDisabled());
    await me.figures('1432');
    await me.keep();
    await me.kept(5);
    await second.kept(5);
    await second.tap('Write here');
    await page.locator('.notice[data-claim="elsewhere"]').waitFor();
    await second.figures('1433');
    await other.locator('.answer', { hasText: /\d/ }).waitFor();
    await second.keep();
    await second.kept(6);
    await me.kept(6);
    assert.ok(await me.button('Keep').isDisabled());
}));

// Fills the origin's room to the last hundred bytes from a database of its own.
async function fill() {
    const database = await new Promise((resolve) => {
        const request = indexedDB.open('filler');
        request.onupgradeneeded = () => request.result.createObjectStore('x', { autoIncrement: true });
        request.onsuccess = () => resolve(request.result);
    });
    const put = (size) => new Promise((resolve) => {
        const transaction = database.transaction('x', 'readwrite');
        transaction.oncomplete = () => resolve(true);
        transaction.onabort = () => resolve(false);
        transaction.objectStore('x').put('x'.repeat(size));
    });
    for (let size = 200_000; size > 60; size = Math.floor(size / 3)) while (await put(size));
    database.close();
}

test('a full store: the entry stays on the screen, is not called kept, and can be kept later', { timeout: 90_000 }, () => withBrowser(async ({ context, page }) => {
    const session = await context.newCDPSession(page);
    const origin = new URL(server.address).origin;
    await page.goto(server.address);
    await session.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 6_000_000 });
    const me = await ready(page);
    await page.evaluate(fill);
    await me.figures('1432');
    await page.locator('.answer', { hasText: '50.000' }).waitFor();
    await me.keep();
    await page.locator('[data-trouble="full"]').waitFor();
    assert.equal(await me.count(), 4);
    await page.locator('output.figure', { hasText: '1.432' }).waitFor();
    await page.evaluate(() => new Promise((resolve) => (indexedDB.deleteDatabase('filler').onsuccess = resolve)));
    await session.send('Storage.overrideQuotaForOrigin', { origin });
    await me.keep();
    await me.kept(5);
    await page.reload();
    await me.kept(5);
}));

test('what is tapped before the store is open waits for it', () => withBrowser(async ({ context, page }) => {
    await context.addInitScript(() => {
        const add = EventTarget.prototype.addEventListener;
        IDBOpenDBRequest.prototype.addEventListener = function (type, listener, options) {
            const late = (event) => setTimeout(() => listener.call(this, event), 1500);
            return add.call(this, type, type === 'success' ? late : listener, options);
        };
    });
    await ready(page);
}));

test('a browser that keeps nothing says so, and still answers', () => withBrowser(async ({ context, page }) => {
    await context.addInitScript(() => {
        indexedDB.open = () => {
            throw new DOMException('not in a private window', 'SecurityError');
        };
    });
    await page.goto(server.address);
    await page.locator('[data-trouble="refused"]').waitFor();
    await page.goto(`${server.address}#/fall`);
    const me = new Actor(page, 'thumb');
    await me.type('Staff at the near point', '1432');
    await me.type('Staff at the far point', '2118');
    await me.type('Distance between them', '54.88');
    await page.locator('.huge', { hasText: '1 in 80' }).waitFor();
    await me.tap('Keep as a job');
    await page.getByText('no job can be made').waitFor();
}));

test('a newer version in another window, and an older app on newer jobs', () => withBrowser(async ({ context, page }) => {
    await ready(page);
    const other = await context.newPage();
    await other.goto(`${server.address}icon.svg`);
    await other.evaluate(() => new Promise((resolve, reject) => {
        const request = indexedDB.open('fallwright', 99);
        request.onsuccess = () => resolve(request.result.close());
        request.onerror = () => reject(request.error);
    }));
    await page.locator('[data-trouble="newer-elsewhere"]').waitFor();
    await page.reload();
    await page.locator('[data-trouble="older"]').waitFor();
}));

test('a clock that goes back is said, and entries keep their order', () => withBrowser(async ({ page }) => {
    const me = await ready(page);
    await page.evaluate(() => {
        const now = Date.now;
        const Real = Date;
        globalThis.Date = class extends Real {
            constructor(...given) {
                super(...(given.length ? given : [now() - 7_200_000]));
            }
        };
    });
    await me.figures('1432');
    await me.keep();
    await me.kept(5);
    await page.locator('[data-clock="behind"]').waitFor();
    const times = await page.evaluate(() => new Promise((resolve) => {
        const request = indexedDB.open('fallwright');
        request.onsuccess = () => {
            const all = request.result.transaction('lines').objectStore('lines').getAll();
            all.onsuccess = () => resolve(all.result.map((each) => JSON.parse(each.text).at));
        };
    }));
    assert.equal(times.length, 5);
    for (let i = 1; i < times.length; i += 1) assert.ok(Date.parse(times[i]) >= Date.parse(times[i - 1]), `${times[i - 1]} then ${times[i]}`);
}));

test('where the browser may clear the store, that is said; a wiped copy of the app is fetched anew', () => withBrowser(async ({ context, page }) => {
    await firstVisit(page, server.address);
    await ready(page);
    await page.goto(`${server.address}#/device`);
    await page.locator('main [data-persisted]').waitFor();
    const persisted = await page.evaluate(() => navigator.storage.persisted());
    assert.equal(await page.locator('main [data-persisted]').getAttribute('data-persisted'), String(persisted));
    const session = await context.newCDPSession(page);
    await session.send('Storage.clearDataForOrigin', { origin: new URL(server.address).origin, storageTypes: 'service_workers,cache_storage' });
    const slow = await context.newPage();
    await slow.goto(server.address);
    await slow.locator('[data-offline="kept"]').waitFor();
    assert.ok(await slow.evaluate(async () => (await caches.keys()).length) > 0);
}));
