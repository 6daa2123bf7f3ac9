// What is asked in practice: a staff at a figure, and how hard it is to see. All figures in thousandths of the unit
// (millimetres, or thousandths of a foot), so that they are compared exactly. The faces are the core's drawings.
import type { Unit } from '$api';

export const LEVELS = ['near', 'far', 'blurred', 'inverted', 'receiver', 'all'] as const;
export type Level = (typeof LEVELS)[number];
export const LEVEL_WORDS: Record<Level, string> = {
    near: '1  Near', far: '2  Far', blurred: '3  Out of focus', inverted: '4  Upside down', receiver: '5  HIGH or LOW', all: '6  All at once',
};

export interface Receiver {
    side: 'high' | 'low';
    by: number;
}

export interface Task {
    level: Level;
    unit: Unit;
    /** Where the line is drawn across the face: the light, or the mark the receiver is held at */
    line: number;
    /** What has to be said: the figure at the light */
    truth: number;
    inverted: boolean;
    blurred: boolean;
    /** How much of the face is drawn: more of it is smaller */
    window: number;
    /** How close a good eye comes, in thousandths: a tenth of a block near, more where it is small or blurred */
    reach: number;
    receiver: Receiver | null;
}

/** Numbers from 0 to 1 from a written seed, the same on every machine (integer arithmetic only). */
export function randomFrom(seed: number): () => number {
    let state = seed >>> 0;
    return () => {
        state = (state + 0x6d2b79f5) >>> 0;
        let mixed = Math.imul(state ^ (state >>> 15), state | 1);
        mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
        return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
    };
}

/** HIGH: the receiver stands above the light. Upside down, figures run downwards. */
export function atTheLight(mark: number, receiver: Receiver, inverted: boolean): number {
    return (receiver.side === 'high') === inverted ? mark + receiver.by : mark - receiver.by;
}

export function nextTask(level: Level, unit: Unit, random: () => number): Task {
    const within = (from: number, to: number) => from + Math.floor(random() * (to - from + 1));
    const all = level === 'all';
    const line = unit === 'm' ? within(350, 3800) : within(1200, 12_500);
    const inverted = level === 'inverted' || (all && random() < 0.5);
    const far = level === 'far' || (all && random() < 0.5);
    const blurred = level === 'blurred' || (all && !far) || (all && random() < 0.3);
    const held = level === 'receiver' || (all && random() < 0.5);
    const receiver: Receiver | null = held ? { side: random() < 0.5 ? 'high' : 'low', by: within(3, unit === 'm' ? 60 : 180) } : null;
    return {
        level, unit, line, inverted, blurred, receiver,
        truth: receiver === null ? line : atTheLight(line, receiver, inverted),
        window: far ? 500 : 220,
        reach: far && blurred ? 4 : far ? 3 : blurred ? 2 : 1,
    };
}
