// One open book: its lines, what the core makes of them, and the only way to add to it.
import type { EvaluateAnswer, KnownEntry, Reading } from '$api';
import { engine, NoAnswer } from '../engine';
import { entriesOf, standing, timeStamp, type Draft, type Stored } from '../entries/entry';
import { stampAfter } from '../store/health';
import type { BookCard, Store } from '../store/store';
import { claimBook, type Claim, type Writer } from '../store/writer';
import { Remembered } from './remembered.svelte';
import { settings } from './settings.svelte';

/** An entry of a known kind as it stands, after amendments. */
export type Of<K extends KnownEntry['kind']> = Extract<KnownEntry, { kind: K }> & { id: string };

/** The id of an entry that is only being thought about; never kept. */
export const THOUGHT = 'being-entered';

export class Job {
    readonly id: string;
    #store: Store;
    #writer: Writer | null = null;
    #channel: BroadcastChannel | null = null;
    card = $state.raw<BookCard>() as BookCard;
    lines = $state.raw<string[]>([]);
    claim = $state<Claim>('unguarded');
    /** The core's answer to all that is kept; null until the first one */
    answer = $state.raw<EvaluateAnswer | null>(null);
    /** Why there is no answer */
    wrong = $state('');
    working = $state(false);
    /** How far the device's clock lies behind the last entry, milliseconds */
    clockBehind = $state(0);
    /** The set-up, line and step that Read works with */
    chosen: Remembered<{ setup: string; line: string; what: string; every: string; at: number }>;

    entries = $derived(entriesOf(this.lines));
    now = $derived(standing(this.entries));
    unit = $derived(this.card.unit);

    private constructor(store: Store, card: BookCard) {
        this.#store = store;
        this.id = card.id;
        this.card = card;
        this.chosen = new Remembered(`chosen-${card.id}`, { setup: '', line: '', what: '', every: '', at: 0 });
    }

    static async open(store: Store, card: BookCard): Promise<Job> {
        const job = new Job(store, card);
        job.lines = await store.lines(card.id);
        job.#writer = await claimBook(card.id, navigator.locks, (claim) => (job.claim = claim));
        job.claim = job.#writer.claim;
        if (typeof BroadcastChannel !== 'undefined') {
            job.#channel = new BroadcastChannel(`fallwright-book-${card.id}`);
            job.#channel.onmessage = () => void job.reload();
        }
        void job.evaluate();
        return job;
    }

    close() {
        this.#writer?.release();
        this.#channel?.close();
    }

    async takeOver() {
        await this.#writer?.takeOver();
        await this.reload();
    }

    get readOnly() {
        return this.claim === 'elsewhere';
    }

    get text() {
        return this.lines.join('\n') + '\n';
    }

    of<K extends KnownEntry['kind']>(kind: K): Of<K>[] {
        return this.now.filter((entry) => entry.kind === kind) as unknown as Of<K>[];
    }

    entry(id: string): Stored | undefined {
        return this.now.find((entry) => entry.id === id);
    }

    /** Adds entries and answers once they are on the disk. Throws NotKept; then nothing has been added. */
    async add(...drafts: Draft[]): Promise<string[]> {
        const now = new Date();
        const { when, behind } = stampAfter(this.#lastTime(), now);
        this.clockBehind = behind;
        const kept = await this.#store.append(this.id, drafts, settings.by, now, timeStamp(when), this.#newTitle(drafts));
        this.working = true;
        this.lines = [...this.lines, ...kept.lines];
        this.#channel?.postMessage(kept.count);
        await this.#refreshCard();
        void this.evaluate();
        return kept.ids;
    }

    async addLines(lines: readonly string[]) {
        await this.#store.appendLines(this.id, lines, new Date());
        this.#channel?.postMessage(0);
        await this.reload();
    }

    async markSaved() {
        await this.#store.markSaved(this.id, this.lines.length);
        await this.#refreshCard();
    }

    async reload() {
        this.working = true;
        this.lines = await this.#store.lines(this.id);
        await this.#refreshCard();
        await this.evaluate();
    }

    async #refreshCard() {
        this.card = (await this.#store.card(this.id)) ?? this.card;
    }

    // Amending the book's own line renames the job on the list too.
    #newTitle(drafts: readonly Draft[]): string | undefined {
        const title = drafts.flatMap((each) => (each.kind === 'amend' && each.of === this.entries[0]?.id ? [each.set['title']] : [])).at(-1);
        return typeof title === 'string' ? title : undefined;
    }

    #lastTime(): string | null {
        for (let i = this.entries.length - 1; i >= 0; i -= 1) {
            const at = this.entries[i]?.['at'];
            if (typeof at === 'string') return at;
        }
        return null;
    }

    async evaluate() {
        this.working = true;
        try {
            this.answer = await engine.ask('evaluate', {}, { book: this.text, slot: `evaluate-${this.id}` });
            this.wrong = '';
        } catch (failure) {
            if (failure instanceof NoAnswer && failure.why === 'stale') return;
            this.wrong = failure instanceof Error ? failure.message : String(failure);
        }
        this.working = false;
    }

    /** What the core would say if this were kept; null where a newer question has taken its place. */
    async think(draft: Draft): Promise<EvaluateAnswer | null> {
        const line = JSON.stringify({ id: THOUGHT, ...draft });
        try {
            return await engine.ask('evaluate', {}, { book: `${this.text}${line}\n`, slot: 'thought' });
        } catch (failure) {
            if (failure instanceof NoAnswer && failure.why === 'stale') return null;
            throw failure;
        }
    }

    reading(id: string): Reading | undefined {
        return this.answer?.readings.find((each) => each.id === id);
    }
}
