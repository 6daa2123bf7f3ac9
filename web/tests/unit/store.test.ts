// The store over an IndexedDB in memory; what a browser does under it is shown by tests/browser.
import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { beforeEach, expect, test, vi } from 'vitest';
import { NotKept, Store } from '../../src/store/store';
import { troubleOf } from '../../src/store/database';

const watch = { trouble: vi.fn() };
const now = new Date('2026-05-04T07:30:00Z');
const at = '2026-05-04T08:30:00+01:00';
const head = { kind: 'book', format: 'fallwright', version: 1, title: 'Yard', unit: 'm' } as const;
const remark = (text: string) => ({ kind: 'remark', text }) as const;

beforeEach(() => {
    globalThis.indexedDB = new IDBFactory();
    watch.trouble.mockReset();
});

test('entries come back in order, ids go on over books', async () => {
    const store = await Store.open(watch);
    const { id, kept } = await store.create([head, remark('a')], 'Ines', now, at);
    expect(kept.count).toBe(2);
    const more = await store.append(id, [remark('b')], 'Ines', now, at);
    const other = await store.create([head], '', now, at);
    const counters = [...kept.ids, ...more.ids, ...other.kept.ids].map((each) => Number(each.split('-')[1]));
    expect(counters).toEqual([1, 2, 3, 4]);
    expect((await store.lines(id)).map((line) => (JSON.parse(line) as { text?: string }).text)).toEqual([undefined, 'a', 'b']);
    expect((await store.card(id))?.lines).toBe(3);
});

test('parallel writes lose nothing and repeat no id', async () => {
    const store = await Store.open(watch);
    const { id } = await store.create([head], '', now, at);
    await Promise.all(Array.from({ length: 30 }, (_, i) => store.append(id, [remark(String(i))], '', now, at)));
    const ids = (await store.lines(id)).map((line) => (JSON.parse(line) as { id: string }).id);
    expect(ids).toHaveLength(31);
    expect(new Set(ids).size).toBe(31);
});

test('a file stays as it is, byte by byte', async () => {
    const store = await Store.open(watch);
    const text = '{"kind":"book","format":"fallwright","version":1,"title":"T","unit":"ft"}\n{"torn\n\n{"kind":"remark","text":"50.000"}\n';
    const id = await store.take(text, now);
    expect((await store.lines(id)).join('\n') + '\n').toBe(text);
    expect(await store.card(id)).toMatchObject({ title: 'T', unit: 'ft', saved: 4 });
});

test('an aborted write leaves nothing and says so', async () => {
    const store = await Store.open(watch);
    const { id } = await store.create([head], '', now, at);
    const add = vi.spyOn(IDBObjectStore.prototype, 'add').mockImplementationOnce(() => {
        throw new DOMException('no room', 'QuotaExceededError');
    });
    await expect(store.append(id, [remark('lost')], '', now, at)).rejects.toMatchObject({ trouble: 'full' });
    add.mockRestore();
    expect(await store.lines(id)).toHaveLength(1);
    expect((await store.append(id, [remark('kept')], '', now, at)).count).toBe(2);
});

test('a removed book is gone, a write to it fails', async () => {
    const store = await Store.open(watch);
    const { id } = await store.create([head, remark('a')], '', now, at);
    await store.remove(id);
    expect(await store.lines(id)).toEqual([]);
    expect(await store.books()).toEqual([]);
    await expect(store.append(id, [remark('b')], '', now, at)).rejects.toBeInstanceOf(NotKept);
});

test('a newer version elsewhere makes this one let go, an older app is refused', async () => {
    await Store.open(watch);
    const request = indexedDB.open('fallwright', 99);
    const newer = await new Promise<IDBDatabase>((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
    });
    expect(watch.trouble).toHaveBeenCalledWith('newer-elsewhere');
    newer.close();
    await expect(Store.open(watch)).rejects.toSatisfy((failure) => troubleOf(failure) === 'older');
});
