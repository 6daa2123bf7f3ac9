// Joining a file to a book: entries with one id and one content are one; one id with two contents is a conflict.
import { entriesOf, linesOf, type Stored } from './entry';

export interface Conflict {
    id: string;
    here: string;
    there: string;
}

export interface Joined {
    /** Lines of the file that this book does not have, in their order */
    added: string[];
    /** Entries both have */
    same: number;
    conflicts: Conflict[];
    /** Why the two cannot be one book at all */
    refused: string | null;
}

const NAMED: Record<string, string[]> = {
    benchmark: ['point'], instrument: ['name'], staff: ['name'], receiver: ['name'], line: ['name'], setup: ['name'],
    place: ['point'], what: ['name'], trial: ['name'], surface: ['name'],
};

function canonical(value: unknown): string {
    if (Array.isArray(value)) return `[${value.map(canonical).join(',')}]`;
    if (typeof value === 'object' && value !== null) {
        const fields = Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1));
        return `{${fields.map(([key, each]) => `${JSON.stringify(key)}:${canonical(each)}`).join(',')}}`;
    }
    return JSON.stringify(value);
}

function content(entry: Stored): string {
    const { id: _id, at: _at, by: _by, ...fields } = entry;
    return canonical(fields);
}

function nameOf(entry: Stored): string | null {
    const fields = NAMED[entry.kind];
    if (!fields || (entry.kind === 'benchmark' && Number(entry['sd'] ?? 0) > 0)) return null;
    return `${entry.kind} ${fields.map((field) => String(entry[field])).join(' ')}`;
}

export function join(here: readonly string[], file: string): Joined {
    const theirs = linesOf(file);
    const mine = entriesOf(here);
    const others = entriesOf(theirs);
    const nothing = { added: [], same: 0, conflicts: [] };
    const [myBook, otherBook] = [mine[0], others[0]];
    if (otherBook?.kind !== 'book' || otherBook['format'] !== 'fallwright') {
        return { ...nothing, refused: 'This file is no book: its first line should say so. Choose a file that ends in .book.jsonl.' };
    }
    for (const [field, usual] of [['unit', 'm'], ['datum', ''], ['curvature', true]] as const) {
        if ((myBook?.[field] ?? usual) !== (otherBook[field] ?? usual)) {
            return { ...nothing, refused: `The two books have different ${field}: they cannot be one.` };
        }
    }
    if (others.some((entry) => entry.id.startsWith('#') && entry !== otherBook)) {
        return { ...nothing, refused: 'Entries of this file have no ids, written by hand perhaps. Join the two files with `fallwright join` first, then open what it makes.' };
    }
    return merged(mine, theirs);
}

function merged(mine: Stored[], lines: string[]): Joined {
    const ids = new Map(mine.map((entry) => [entry.id, entry]));
    const names = new Map(mine.flatMap((entry) => (nameOf(entry) === null ? [] : [[nameOf(entry)!, entry] as const])));
    const joined: Joined = { added: [], same: 0, conflicts: [], refused: null };
    for (const line of lines) {
        const entry = entriesOf([line])[0];
        if (entry === undefined || entry.kind === 'book') continue;
        const twin = ids.get(entry.id);
        const namesake = names.get(nameOf(entry) ?? '');
        if (twin) {
            if (canonical(twin) === canonical(entry)) joined.same += 1;
            else joined.conflicts.push({ id: entry.id, here: canonical(twin), there: canonical(entry) });
        } else if (namesake && content(namesake) === content(entry)) {
            joined.same += 1;
        } else if (namesake) {
            joined.conflicts.push({ id: nameOf(entry)!, here: content(namesake), there: content(entry) });
        } else {
            joined.added.push(line);
        }
    }
    return joined;
}
