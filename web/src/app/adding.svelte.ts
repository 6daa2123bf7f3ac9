// Adding to a job from a form: busy while it is written, done once it is on the disk, the form kept where it is not.
import type { Draft } from '../entries/entry';
import { app } from './app.svelte';
import type { Job } from './job.svelte';

export class Adding {
    busy = $state(false);
    #job: Job;

    constructor(job: Job) {
        this.#job = job;
    }

    /** The ids once they are kept, or null: then nothing was added and the reason is on the screen. */
    async add(...drafts: Draft[]): Promise<string[] | null> {
        if (this.busy || this.#job.readOnly) return null;
        this.busy = true;
        try {
            return await this.#job.add(...drafts);
        } catch (failure) {
            app.failed(failure);
            return null;
        } finally {
            this.busy = false;
        }
    }
}

/** A name for the next one: S1, S2, …; BM1, BM2, … */
export function nextName(prefix: string, taken: readonly string[]): string {
    let n = taken.length + 1;
    while (taken.includes(`${prefix}${n}`)) n += 1;
    return `${prefix}${n}`;
}
