// Where to read next: stations along a line, as the core's table has them, or single points.
import { Asked } from '../../app/asked.svelte';
import type { Job } from '../../app/job.svelte';
import { pointName, type Target } from './reading.svelte';

export interface Stop {
    where: Target;
    label: string;
    /** The staff reading to work to; null where there is none */
    target: number | null;
    design: number | null;
}

export class Stations {
    #job: Job;
    #asked = new Asked<'setout'>('stations');
    /** A point or chainage that is not in the list */
    other = $state.raw<Target | null>(null);

    constructor(job: Job) {
        this.#job = job;
    }

    get line() {
        return this.#job.chosen.value.line;
    }

    get wrong() {
        return this.#asked.wrong;
    }

    /** The surface that is read: chosen, else laid of a drain, else ground. */
    get what(): string {
        if (this.#job.chosen.value.what) return this.#job.chosen.value.what;
        const line = this.#job.of('line').find((each) => each.name === this.line);
        return line?.use === 'drain' && line.profile ? 'laid' : line?.profile ? 'finished' : 'ground';
    }

    /** To be called in an effect: asks for the table whenever the book, the line or the set-up changes. */
    follow(setup: string | undefined) {
        const { line, every } = this.#job.chosen.value;
        const known = this.#job.of('line').find((each) => each.name === line);
        if (!known || !(known.profile || known.chambers)) return this.#asked.clear();
        void this.#asked.ask('setout', { line, ...(setup ? { setup } : {}), every: every || (this.#job.unit === 'm' ? '5 m' : '20 ft') }, this.#job.text);
    }

    get list(): Stop[] {
        return this.line ? this.#along() : this.#points();
    }

    #along(): Stop[] {
        const rows = this.#asked.answer?.setout[0]?.rows ?? [];
        const stops = new Map<string, Stop>();
        for (const row of rows) {
            const what = row.what.startsWith('laid ') && this.what === 'laid' ? row.what : this.what;
            const where = { line: this.line, ch: row.ch, off: row.off, what };
            const name = pointName(where);
            const same = row.what === what;
            if (!stops.has(name) || same) stops.set(name, { where, label: name, target: same ? row.target : null, design: same ? row.design : null });
        }
        if (stops.size === 0) for (const stop of this.#plain()) stops.set(stop.label, stop);
        return [...stops.values()];
    }

    // A line without design: whole steps of chainage as far as it is known to go, and three beyond what was read.
    #plain(): Stop[] {
        const step = Number.parseFloat(this.#job.chosen.value.every) || (this.#job.unit === 'm' ? 5 : 20);
        const read = this.#job.of('reading').filter((each) => each.line === this.line).map((each) => each.ch ?? 0);
        const last = Math.floor(Math.max(0, ...read) / step + 1e-9) + 3;
        return Array.from({ length: last + 1 }, (_, i) => {
            const where = { line: this.line, ch: Number((i * step).toFixed(3)), off: 0, what: this.what };
            return { where, label: pointName(where), target: null, design: null };
        });
    }

    #points(): Stop[] {
        const names = [...this.#job.of('benchmark').map((each) => each.point), ...this.#job.of('reading').flatMap((each) => (each.point ? [each.point] : []))];
        return [...new Set(names)].map((point) => ({ where: { point }, label: point, target: null, design: null }));
    }

    get at() {
        return Math.min(Math.max(this.#job.chosen.value.at, 0), Math.max(this.list.length - 1, 0));
    }

    get current(): Stop | undefined {
        return this.other ? undefined : this.list[this.at];
    }

    get where(): Target | null {
        return this.other ?? this.current?.where ?? null;
    }

    get label(): string {
        const where = this.where;
        return where === null ? 'Name a point' : 'point' in where ? where.point : pointName(where);
    }

    choose(change: Partial<Job['chosen']['value']>) {
        this.other = null;
        this.#job.chosen.value = { ...this.#job.chosen.value, ...change };
    }

    step(by: number) {
        if (this.other) {
            this.other = null;
            return;
        }
        if (this.line) this.choose({ at: Math.min(Math.max(this.at + by, 0), Math.max(this.list.length - 1, 0)) });
        else if (by < 0 || this.at + by < this.list.length) this.choose({ at: Math.max(this.at + by, 0) });
    }

    goTo(where: Target) {
        if ('line' in where) {
            this.choose({ line: where.line, what: where.what });
            const at = this.list.findIndex((each) => 'line' in each.where && each.where.ch === where.ch && each.where.off === where.off);
            if (at >= 0) return this.choose({ at });
        } else {
            this.choose({ line: '' });
            const at = this.list.findIndex((each) => 'point' in each.where && each.where.point === where.point);
            if (at >= 0) return this.choose({ at });
        }
        this.other = where;
    }
}
