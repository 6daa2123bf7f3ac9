// What practice leaves on the device: error and time of each reading, newest last, no more than KEPT of them.
import type { Unit } from '$api';
import type { Grade } from './judge';
import { LEVELS, type Level } from './task';

export interface Done {
    at: number;
    level: Level;
    unit: Unit;
    off: number;
    grade: Grade;
    /** From the face on the screen to the answer, milliseconds */
    took: number;
}

export const KEPT = 300;
export const LOOKED_AT = 20;

export function withDone(history: readonly Done[], done: Done): Done[] {
    return [...history, done].slice(-KEPT);
}

export interface Summary {
    count: number;
    /** Right, or as good as an eye gets */
    good: number;
    slips: number;
    /** Medians: one long pause does not count for much */
    off: number;
    seconds: number;
}

function median(values: readonly number[]): number {
    const sorted = [...values].sort((a, b) => a - b);
    const half = Math.floor(sorted.length / 2);
    return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}

/** The last LOOKED_AT readings of a level, or null where there is none. */
export function summaryOf(history: readonly Done[], level: Level, unit: Unit): Summary | null {
    const last = history.filter((each) => each.level === level && each.unit === unit).slice(-LOOKED_AT);
    if (last.length === 0) return null;
    return {
        count: last.length,
        good: last.filter((each) => each.grade === 'right' || each.grade === 'eye').length,
        slips: last.filter((each) => each.grade === 'slip').length,
        off: median(last.map((each) => Math.abs(each.off))),
        seconds: median(last.map((each) => each.took)) / 1000,
    };
}

/** The level to try next: after five good ones in a row within ten seconds each. */
export function readyFor(history: readonly Done[], level: Level, unit: Unit): Level | null {
    const next = LEVELS[LEVELS.indexOf(level) + 1];
    const last = history.filter((each) => each.level === level && each.unit === unit).slice(-5);
    const well = (each: Done) => (each.grade === 'right' || each.grade === 'eye') && each.took <= 10_000;
    return next !== undefined && last.length === 5 && last.every(well) ? next : null;
}
