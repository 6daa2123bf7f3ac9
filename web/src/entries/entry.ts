// Making entries: what a person did becomes one line of the book, with id, time and name.
import type { KnownEntry } from '$api';

/** An entry before it has a name and a time; every kind, so that a field cannot be misspelt. */
type Without<T> = T extends KnownEntry ? Omit<T, 'id' | 'at' | 'by'> : never;
export type Draft = Without<KnownEntry>;

export interface Maker {
    /** Name of this device; ids are DEVICE-COUNTER */
    device: string;
    /** The last counter given out */
    counter: number;
    by: string;
    at: string;
}

/** RFC 3339 with the offset of the place, to the second: 2026-05-04T08:30:00+01:00. */
export function timeStamp(when: Date, offsetMinutes = -when.getTimezoneOffset()): string {
    const local = new Date(when.getTime() + offsetMinutes * 60_000).toISOString().slice(0, 19);
    const size = Math.abs(offsetMinutes);
    const two = (n: number) => String(n).padStart(2, '0');
    return `${local}${offsetMinutes < 0 ? '-' : '+'}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}

/** The lines for drafts, in order, and the counter after them. The form is that of the command line's `add`. */
export function makeLines(drafts: readonly Draft[], maker: Maker): { lines: string[]; ids: string[]; counter: number } {
    const lines: string[] = [];
    const ids: string[] = [];
    let counter = maker.counter;
    for (const { kind, ...fields } of drafts) {
        counter += 1;
        const id = `${maker.device}-${counter}`;
        ids.push(id);
        lines.push(JSON.stringify({ kind, id, at: maker.at, ...(maker.by === '' ? {} : { by: maker.by }), ...fields }));
    }
    return { lines, ids, counter };
}

const LETTERS = 'ABCDEFGHJKLMNPQRSTUVWXYZ';
const SIGNS = LETTERS + '23456789';

/** Five signs without look-alikes, a letter first: two crews' devices meet by chance once in 25 million. */
export function newDevice(random: (size: number) => Uint8Array): string {
    const bytes = random(5);
    return Array.from(bytes, (byte, i) => (i === 0 ? LETTERS[byte % LETTERS.length] : SIGNS[byte % SIGNS.length])).join('');
}

/** Lines of a file as the book counts them: a byte order mark and Windows line ends do not count. */
export function linesOf(text: string): string[] {
    const lines = text.replace(/^\uFEFF/, '').split('\n').map((line) => line.replace(/\r$/, ''));
    while (lines.length > 0 && lines[lines.length - 1] === '') lines.pop();
    return lines;
}

export type Stored = Record<string, unknown> & { kind: string; id: string };

/** Entries as they stand in the lines, with #N for those without id; what cannot be read is left out (the core reports it). */
export function entriesOf(lines: readonly string[]): Stored[] {
    const entries: Stored[] = [];
    lines.forEach((line, index) => {
        try {
            const entry = JSON.parse(line) as unknown;
            if (typeof entry !== 'object' || entry === null || Array.isArray(entry)) return;
            const fields = entry as Record<string, unknown>;
            if (typeof fields['kind'] !== 'string') return;
            const id = typeof fields['id'] === 'string' ? fields['id'] : `#${index + 1}`;
            entries.push({ ...fields, kind: fields['kind'], id });
        } catch {
            // A torn line: the core says so.
        }
    });
    return entries;
}

/** Entries with amendments and strikes applied in the order written, for lists and forms. The core alone evaluates. */
export function standing(entries: readonly Stored[]): Stored[] {
    const struck = new Set<string>();
    const byId = new Map(entries.map((entry) => [entry.id, entry]));
    const undone = (id: string): boolean => struck.has(id);
    for (const entry of entries) {
        if (entry.kind !== 'strike' || undone(entry.id)) continue;
        const of = String(entry['of']);
        const target = byId.get(of);
        struck.add(of);
        if (target?.kind === 'strike') struck.delete(String(target['of']));
    }
    const now = new Map<string, Stored>();
    for (const entry of entries) {
        if (struck.has(entry.id)) continue;
        if (entry.kind === 'amend') {
            const target = now.get(String(entry['of']));
            if (target) now.set(target.id, amended(target, entry['set']));
        } else if (entry.kind !== 'strike') {
            now.set(entry.id, entry);
        }
    }
    return [...now.values()];
}

function amended(target: Stored, set: unknown): Stored {
    const next: Stored = { ...target };
    if (typeof set !== 'object' || set === null) return next;
    for (const [field, value] of Object.entries(set)) {
        if (value === null) delete next[field];
        else next[field] = value;
    }
    return next;
}
