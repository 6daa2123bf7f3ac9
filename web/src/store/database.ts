// The device's database: books as lines, in the order they were written, and what the device itself knows.
import { openDB, type DBSchema, type IDBPDatabase } from 'idb';

export interface BookCard {
    id: string;
    title: string;
    unit: 'm' | 'ft';
    made: number;
    changed: number;
    lines: number;
    /** How many lines a saved or shared file had last: what is newer is on this device only */
    saved: number;
}

export interface Schema extends DBSchema {
    books: { key: string; value: BookCard };
    lines: { key: [string, number]; value: { book: string; seq: number; text: string } };
    device: { key: string; value: { key: string; value: unknown } };
}

export const NAME = 'fallwright';
export const VERSION = 1;

export type Database = IDBPDatabase<Schema>;

/** Why the store does not answer, in words a person can act on. */
export type Trouble = 'none' | 'refused' | 'older' | 'newer-elsewhere' | 'blocked' | 'full' | 'lost';

export interface Watch {
    trouble(what: Trouble): void;
}

export async function openDatabase(watch: Watch): Promise<Database> {
    const database = await openDB<Schema>(NAME, VERSION, {
        upgrade(db) {
            db.createObjectStore('books', { keyPath: 'id' });
            db.createObjectStore('lines', { keyPath: ['book', 'seq'] });
            db.createObjectStore('device', { keyPath: 'key' });
        },
        blocked: () => watch.trouble('blocked'),
        // A window with a newer version wants the store: let go of it at once, or that window would wait.
        blocking: () => {
            database.close();
            watch.trouble('newer-elsewhere');
        },
        terminated: () => watch.trouble('lost'),
    });
    return database;
}

/** What a failure of the database means. */
export function troubleOf(failure: unknown): Trouble {
    const name = failure instanceof DOMException || failure instanceof Error ? failure.name : '';
    if (name === 'QuotaExceededError') return 'full';
    if (name === 'VersionError') return 'older';
    if (name === 'InvalidStateError') return 'lost';
    return 'refused';
}
