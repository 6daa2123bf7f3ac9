// The reading that is being taken: where, how, and the figures so far. Kept through a reload until it is in the book.
import type { EvaluateAnswer, Finding, Level, Reading, Setup, Station } from '$api';
import type { Draft } from '../../entries/entry';
import { typedNumber, typedReading } from '../../entries/typed';
import { THOUGHT, type Job, type Of } from '../../app/job.svelte';
import { Remembered } from '../../app/remembered.svelte';

export type Way = 'staff' | 'mark' | 'clamp';
export type Shown = { high?: number; low?: number };
export type Target = { point: string } | { line: string; ch: number; off: number; what: string };
type ReadingDraft = Extract<Draft, { kind: 'reading' }>;

interface Typed {
    way: Way;
    staff: string;
    mark: string;
    dist: string;
    inverted: boolean;
}

export interface Seen {
    reading: Reading | undefined;
    level: Level | undefined;
    station: Station | undefined;
    setup: Setup | undefined;
    findings: Finding[];
}

export class Taking {
    #job: Job;
    #typed: Remembered<Typed>;
    /** What the receiver shows; it starts anew with every reading */
    shown = $state<Shown | null>(null);

    constructor(job: Job) {
        this.#job = job;
        this.#typed = new Remembered<Typed>(`taking-${job.id}`, { way: 'staff', staff: '', mark: '', dist: '', inverted: false });
    }

    get typed(): Typed {
        return this.#typed.value;
    }

    set(change: Partial<Typed>) {
        this.#typed.value = { ...this.#typed.value, ...change };
    }

    /** Where the receiver is held: typed, else the target there. */
    mark(target: number | null): number | null {
        const text = typedReading(this.typed.mark, this.#job.unit);
        return text === null ? (target === null ? null : Number(target.toFixed(3))) : Number(text);
    }

    draft(setup: Of<'setup'>, where: Target, target: number | null): ReadingDraft | null {
        const base = { kind: 'reading' as const, setup: setup.name, ...where, ...(this.typed.inverted ? { inverted: true } : {}) };
        const dist = typedNumber(this.typed.dist);
        const far = dist ? { dist } : {};
        if (this.typed.way === 'staff') {
            const staff = typedReading(this.typed.staff, this.#job.unit);
            return staff === null || Number.isNaN(Number(staff)) ? null : { ...base, staff: Number(staff), ...far };
        }
        if (this.shown === null) return null;
        if (this.typed.way === 'clamp') return { ...base, ...this.shown, ...far };
        const mark = this.mark(target);
        return mark === null ? null : { ...base, mark, ...this.shown, ...far };
    }

    /** After it is kept: figures go, way and mark stay for the next one. */
    done() {
        this.set({ staff: '', dist: '', inverted: false });
        this.shown = null;
    }
}

/** What an answer says about one reading. */
export function seenIn(answer: EvaluateAnswer, id: string, setup: string, where: Target): Seen {
    const name = 'point' in where ? where.point : pointName(where);
    const line = 'line' in where ? answer.lines.find((each) => each.name === where.line) : undefined;
    return {
        reading: answer.readings.find((each) => each.id === id),
        level: answer.levels.find((each) => each.point === name),
        station: 'line' in where ? line?.stations.find((each) => each.ch === where.ch && each.off === where.off && each.what === where.what) : undefined,
        setup: answer.setups.find((each) => each.name === setup),
        findings: answer.findings.filter((each) => each.severity !== 'note' && each.about.includes(id)),
    };
}

export const thought = (answer: EvaluateAnswer, setup: string, where: Target) => seenIn(answer, THOUGHT, setup, where);

/** The name the core gives to a point read on a line. */
export function pointName(where: { line: string; ch: number; off: number; what: string }): string {
    const side = Math.abs(where.off) < 0.0005 ? '' : ` ${where.off < 0 ? 'L' : 'R'}${Math.abs(where.off).toFixed(3)}`;
    return `${where.line} ${where.ch.toFixed(3)}${side} ${where.what}`;
}

/** The place a point's name speaks of, where it is that of a point on a line. */
export function targetOf(name: string): Target {
    const found = /^(.+) (-?\d+\.\d{3})(?: ([LR])(\d+\.\d{3}))? ([^ ].*)$/.exec(name);
    if (!found) return { point: name };
    const [, line = '', ch = '0', side, off = '0', what = ''] = found;
    return { line, ch: Number(ch), off: side === 'L' ? -Number(off) : Number(off), what };
}

/** Why a reading should be looked at once more, in words; empty where nothing speaks against it. */
export function doubtsOf(seen: Seen): string[] {
    const doubts = seen.findings.map((each) => each.message);
    const w = seen.reading?.w;
    if (w != null && Math.abs(w) > 3) doubts.push('It does not fit the other readings.');
    if (seen.reading === undefined && doubts.length === 0) doubts.push('The core leaves it out.');
    return doubts;
}
