// The page's side of the core: one question at a time goes to the worker; of questions that only ask for the newest
// state (a slot) the older ones are dropped; a worker that dies or hangs is replaced and its question asked again.
import type { Answers, ErrorAnswer, Finding } from '$api';
import type { FromWorker, Job } from './protocol';

export type Verb = keyof Answers;
export type AnswerOf<V extends Verb> = Answers[V];

/** Why there is no answer. stale: a newer question took its place; refused: finding says why; failed: the core gave up twice. */
export class NoAnswer extends Error {
    constructor(readonly why: 'stale' | 'refused' | 'failed', message: string, readonly finding?: Finding) {
        super(message);
    }
}

export interface WorkerLike {
    postMessage(message: unknown): void;
    terminate(): void;
    onmessage: ((event: MessageEvent) => void) | null;
    onerror: ((event: ErrorEvent) => void) | null;
}

export interface Question {
    /** Text of the book; absent for requests without one */
    book?: string;
    /** Only the newest question of a slot is answered */
    slot?: string;
}

interface Waiting {
    job: Job;
    slot: string | undefined;
    tries: number;
    dropped: boolean;
    resolve(answer: unknown): void;
    reject(reason: NoAnswer): void;
}

/** After so long a question nobody waits for any more is ended together with its worker. */
export const PATIENCE = 1200;
const TRIES = 2;

export class Engine {
    #spawn: () => WorkerLike;
    #module: () => Promise<WebAssembly.Module>;
    #worker: WorkerLike | null = null;
    #ready = false;
    #queue: Waiting[] = [];
    #current: Waiting | null = null;
    #next = 1;
    #starting: Promise<void> | null = null;
    #stop: ReturnType<typeof setTimeout> | null = null;
    /** How often the core had to be started anew; shown to the person */
    restarts = 0;
    version = '';
    onstate: (() => void) | null = null;

    constructor(spawn: () => WorkerLike, module: () => Promise<WebAssembly.Module>) {
        this.#spawn = spawn;
        this.#module = module;
    }

    get ready() {
        return this.#ready;
    }

    /** Starts the core without a question, so that the first answer need not wait for it. */
    start(): Promise<void> {
        this.#starting ??= this.#launch().catch((failure: unknown) => {
            this.#starting = null;
            const why = failure instanceof Error ? failure.message : String(failure);
            for (const each of this.#queue.splice(0)) each.reject(new NoAnswer('failed', why));
            throw failure;
        });
        return this.#starting;
    }

    ask<V extends Verb>(verb: V, options: unknown, question: Question = {}): Promise<AnswerOf<V>> {
        const { book, slot } = question;
        return new Promise<AnswerOf<V>>((resolve, reject) => {
            if (slot !== undefined) this.#forget(slot);
            const job: Job = { id: this.#next++, verb, options: JSON.parse(JSON.stringify(options ?? {})) as unknown };
            if (book !== undefined) job.book = book;
            this.#queue.push({ job, slot, tries: 0, dropped: false, resolve: resolve as (answer: unknown) => void, reject });
            void this.start().then(() => this.#turn(), () => undefined);
        });
    }

    async #launch() {
        const module = await this.#module();
        const worker = this.#spawn();
        this.#worker = worker;
        await new Promise<void>((resolve, reject) => {
            worker.onmessage = (event: MessageEvent<FromWorker>) => {
                if (!('ready' in event.data)) return;
                this.version = event.data.ready;
                resolve();
            };
            worker.onerror = (event) => reject(new Error(event.message || 'the core did not start'));
            worker.postMessage({ start: module });
        });
        worker.onmessage = (event: MessageEvent<FromWorker>) => this.#heard(event.data);
        worker.onerror = (event) => this.#died(event.message || 'the core stopped');
        this.#ready = true;
        this.onstate?.();
    }

    #forget(slot: string) {
        const stale = () => new NoAnswer('stale', 'a newer question took its place');
        this.#queue = this.#queue.filter((each) => {
            if (each.slot !== slot) return true;
            each.reject(stale());
            return false;
        });
        const current = this.#current;
        if (current?.slot === slot && !current.dropped) {
            current.dropped = true;
            current.reject(stale());
            this.#stop = setTimeout(() => this.#renew(), PATIENCE);
        }
    }

    #turn() {
        if (!this.#ready || this.#current !== null) return;
        const next = this.#queue.shift();
        if (next === undefined) return;
        this.#current = next;
        next.tries += 1;
        this.#worker!.postMessage(next.job);
    }

    #heard(message: FromWorker) {
        const current = this.#current;
        if (current === null || !('id' in message) || message.id !== current.job.id) return;
        if ('failed' in message) return this.#died(message.failed);
        this.#finish();
        if (current.dropped) return this.#turn();
        if ('refused' in message) {
            current.reject(new NoAnswer('refused', message.refused.message, message.refused));
        } else {
            const answer = JSON.parse(message.answer) as ErrorAnswer | object;
            if ('error' in answer) current.reject(new NoAnswer('refused', answer.error.message, answer.error));
            else current.resolve(answer);
        }
        this.#turn();
    }

    #finish() {
        if (this.#stop !== null) clearTimeout(this.#stop);
        this.#stop = null;
        this.#current = null;
    }

    // The question that was being worked on is asked once more: its book travels with it, so nothing is lost.
    #died(why: string) {
        const current = this.#current;
        this.#finish();
        if (current !== null && !current.dropped) {
            if (current.tries < TRIES) this.#queue.unshift(current);
            else current.reject(new NoAnswer('failed', why));
        }
        this.#renew();
    }

    #renew() {
        this.#finish();
        this.#worker?.terminate();
        this.#worker = null;
        this.#ready = false;
        this.#starting = null;
        this.restarts += 1;
        this.onstate?.();
        void this.start().then(() => this.#turn(), () => undefined);
    }
}
