// Books on this device. Every write asks for durability "strict" and is answered when its transaction has completed,
// never when a request in it has succeeded: what the screen calls kept is on the disk.
import { linesOf, makeLines, newDevice, type Draft } from '../entries/entry';
import type { IDBPTransaction } from 'idb';
import { openDatabase, troubleOf, type BookCard, type Database, type Schema, type Trouble, type Watch } from './database';

export type { BookCard, Trouble } from './database';

/** A write that did not happen; nothing of it is in the store. */
export class NotKept extends Error {
    constructor(readonly trouble: Trouble, readonly reason: unknown) {
        super(reason instanceof Error ? reason.message : String(reason));
    }
}

export interface Kept {
    lines: string[];
    ids: string[];
    /** Lines of the book after it */
    count: number;
}

const STRICT: IDBTransactionOptions = { durability: 'strict' };

export class Store {
    #db: Database;
    #random: (size: number) => Uint8Array;

    private constructor(db: Database, random: (size: number) => Uint8Array) {
        this.#db = db;
        this.#random = random;
    }

    static async open(watch: Watch, random = randomBytes): Promise<Store> {
        return new Store(await openDatabase(watch), random);
    }

    close() {
        this.#db.close();
    }

    async books(): Promise<BookCard[]> {
        return (await this.#db.getAll('books')).sort((a, b) => b.changed - a.changed);
    }

    async card(id: string): Promise<BookCard | undefined> {
        return this.#db.get('books', id);
    }

    async lines(id: string): Promise<string[]> {
        const rows = await this.#db.getAll('lines', IDBKeyRange.bound([id, 0], [id, Infinity]));
        return rows.map((row) => row.text);
    }

    /** A new book of entries; the first must be the book's own. */
    async create(drafts: readonly Draft[], by: string, now: Date, at: string): Promise<{ id: string; kept: Kept }> {
        const id = this.#name();
        const first = drafts[0];
        const card: BookCard = {
            id, title: first?.kind === 'book' ? (first.title ?? '') : '', unit: first?.kind === 'book' ? (first.unit ?? 'm') : 'm',
            made: now.getTime(), changed: now.getTime(), lines: 0, saved: 0,
        };
        return { id, kept: await this.#write(card, drafts, by, now, at) };
    }

    /** A book as a file has it, every line as it stands. */
    async take(text: string, now: Date): Promise<string> {
        const id = this.#name();
        const lines = linesOf(text);
        const head = JSON.parse(lines[0] ?? '{}') as { title?: string; unit?: 'm' | 'ft' };
        const card: BookCard = {
            id, title: String(head.title ?? ''), unit: head.unit === 'ft' ? 'ft' : 'm',
            made: now.getTime(), changed: now.getTime(), lines: lines.length, saved: lines.length,
        };
        await this.#transaction(['books', 'lines'], (tx) => {
            written(tx.objectStore('books').add(card));
            lines.forEach((line, seq) => written(tx.objectStore('lines').add({ book: id, seq, text: line })));
        });
        return id;
    }

    /** Adds entries to a book; the ids come from the device's counter in the same transaction, as does a new title. */
    async append(id: string, drafts: readonly Draft[], by: string, now: Date, at: string, title?: string): Promise<Kept> {
        const card = await this.card(id);
        if (!card) throw new NotKept('lost', new Error('this book is no longer on the device'));
        return this.#write(card, drafts, by, now, at, title);
    }

    /** Adds lines of another file as they stand (joining). */
    async appendLines(id: string, lines: readonly string[], now: Date): Promise<void> {
        await this.#transaction(['books', 'lines'], async (tx) => {
            const card = await tx.objectStore('books').get(id);
            if (!card) throw new Error('this book is no longer on the device');
            lines.forEach((text, i) => written(tx.objectStore('lines').add({ book: id, seq: card.lines + i, text })));
            written(tx.objectStore('books').put({ ...card, lines: card.lines + lines.length, changed: now.getTime() }));
        });
    }

    async markSaved(id: string, lines: number): Promise<void> {
        await this.#transaction(['books'], async (tx) => {
            const card = await tx.objectStore('books').get(id);
            if (card) written(tx.objectStore('books').put({ ...card, saved: lines }));
        });
    }

    async remove(id: string): Promise<void> {
        await this.#transaction(['books', 'lines'], (tx) => {
            written(tx.objectStore('books').delete(id));
            written(tx.objectStore('lines').delete(IDBKeyRange.bound([id, 0], [id, Infinity])));
        });
    }

    async get<T>(key: string): Promise<T | undefined> {
        return (await this.#db.get('device', key))?.value as T | undefined;
    }

    async set(key: string, value: unknown): Promise<void> {
        await this.#transaction(['device'], (tx) => written(tx.objectStore('device').put({ key, value })));
    }

    async #write(card: BookCard, drafts: readonly Draft[], by: string, now: Date, at: string, title?: string): Promise<Kept> {
        let kept: Kept = { lines: [], ids: [], count: 0 };
        await this.#transaction(['books', 'lines', 'device'], async (tx) => {
            const device = tx.objectStore('device');
            const name = (await device.get('name'))?.value as string | undefined ?? newDevice(this.#random);
            const counter = ((await device.get('counter'))?.value as number | undefined) ?? 0;
            const standing = (await tx.objectStore('books').get(card.id)) ?? card;
            const made = makeLines(drafts, { device: name, counter, by, at });
            written(device.put({ key: 'name', value: name }));
            written(device.put({ key: 'counter', value: made.counter }));
            made.lines.forEach((text, i) => written(tx.objectStore('lines').add({ book: card.id, seq: standing.lines + i, text })));
            const count = standing.lines + made.lines.length;
            written(tx.objectStore('books').put({ ...standing, title: title ?? standing.title, lines: count, changed: now.getTime() }));
            kept = { lines: made.lines, ids: made.ids, count };
        });
        return kept;
    }

    async #transaction(stores: ('books' | 'lines' | 'device')[], work: (tx: Transaction) => void | Promise<void>): Promise<void> {
        try {
            const tx = this.#db.transaction(stores, 'readwrite', STRICT);
            // Its failure is heard below; without this a rejection could go unheard while work still runs.
            tx.done.catch(() => undefined);
            try {
                await work(tx);
            } catch (failure) {
                abort(tx);
                throw tx.error ?? failure;
            }
            await tx.done;
        } catch (failure) {
            throw new NotKept(troubleOf(failure), failure);
        }
    }

    #name(): string {
        return Array.from(this.#random(8), (byte) => byte.toString(16).padStart(2, '0')).join('');
    }
}

type Transaction = IDBPTransaction<Schema, ('books' | 'lines' | 'device')[], 'readwrite'>;

// A request fails with its transaction, and that one is heard.
function written(request: Promise<unknown>) {
    request.catch(() => undefined);
}

function abort(tx: { abort(): void }) {
    try {
        tx.abort();
    } catch {
        // It has ended by itself already.
    }
}

function randomBytes(size: number): Uint8Array {
    return crypto.getRandomValues(new Uint8Array(size));
}
