// What was typed at a door as a book: the least of entries from which the core gives the same answer again.
import type { Unit } from '$api';
import type { Draft } from './entry';

const LASER: Draft = { kind: 'instrument', name: 'laser', type: 'rotating-laser' };

function book(title: string, unit: Unit): Draft {
    return { kind: 'book', format: 'fallwright', version: 1, title, unit };
}

export interface FallTyped {
    unit: Unit;
    readings: number[];
    over: number;
}

export function fallBook({ unit, readings, over }: FallTyped): Draft[] {
    const step = readings.length > 1 ? over / (readings.length - 1) : 0;
    return [
        book('How much it falls', unit),
        LASER,
        { kind: 'line', name: 'A', use: 'other' },
        { kind: 'setup', name: 'S1', instrument: 'laser' },
        ...readings.map((staff, i): Draft => ({ kind: 'reading', setup: 'S1', line: 'A', ch: Number((step * i).toFixed(4)), what: 'ground', staff })),
    ];
}

export interface StaffTyped {
    unit: Unit;
    benchmark: number;
    reading: number;
    start: number;
    fall: string;
    along: number;
}

/** The start of the line has level `start`; the set-up is a level plane, tied to the benchmark by one reading. */
export function staffBook({ unit, benchmark, reading, start, fall, along }: StaffTyped): Draft[] {
    return [
        book('What the staff should read', unit),
        { kind: 'benchmark', point: 'BM', level: benchmark },
        LASER,
        { kind: 'line', name: 'A', use: 'other', profile: [{ ch: 0, level: start }, { ch: along, gradient: fall }] },
        { kind: 'setup', name: 'S1', instrument: 'laser' },
        { kind: 'reading', setup: 'S1', point: 'BM', staff: reading },
    ];
}

export interface RightTyped {
    unit: Unit;
    fall: string;
    spacing: number;
    tolerance: number;
    /** The mark the receiver was clamped at over the first station */
    clamp: number;
    seen: { high?: number; low?: number }[];
}

/** The laser is set to the fall and the receiver clamped where the first station is right: HIGH is high. */
export function rightBook({ unit, fall, spacing, tolerance, clamp, seen }: RightTyped): Draft[] {
    const end = Math.max(spacing * Math.max(seen.length - 1, 1), spacing);
    return [
        book('Is it right?', unit),
        LASER,
        { kind: 'line', name: 'A', use: 'drain', profile: [{ ch: 0, under: 'A 0.000 laid', by: 0 }, { ch: Number(end.toFixed(4)), gradient: fall }] },
        { kind: 'tolerance', line: 'A', what: 'laid', below: -tolerance, above: tolerance },
        { kind: 'setup', name: 'S1', instrument: 'laser', place: { line: 'A', ch: 0, off: 0 }, plane: { main: fall, cross: 0, towards: 'A' }, clamp },
        ...seen.map((each, i): Draft => ({ kind: 'reading', setup: 'S1', line: 'A', ch: Number((spacing * i).toFixed(4)), what: 'laid', ...each })),
    ];
}

/** The text of a book that is only asked about. */
export function textOf(drafts: readonly Draft[]): string {
    return drafts.map((draft) => JSON.stringify(draft) + '\n').join('');
}
