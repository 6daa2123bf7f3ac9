// What the whole window shares: the store, its health, the jobs kept, the one that is open.
import { engine } from '../engine';
import type { Draft } from '../entries/entry';
import { timeStamp } from '../entries/entry';
import { askToPersist, look, type Health } from '../store/health';
import { NotKept, Store, type BookCard, type Trouble } from '../store/store';
import { troubleOf } from '../store/database';
import { Job } from './job.svelte';
import { router, type Place } from './route.svelte';
import { settings } from './settings.svelte';

class App {
    store = $state.raw<Store | null>(null);
    trouble = $state<Trouble>('none');
    health = $state<Health>({ persisted: null, used: null, quota: null });
    books = $state.raw<BookCard[]>([]);
    job = $state.raw<Job | null>(null);
    /** The core: starting, ready, or why it does not start */
    core = $state<'starting' | 'ready' | 'failed'>('starting');
    restarts = $state(0);
    /** One sentence about something that just went wrong or right; shown until it is dismissed */
    notice = $state('');
    opening = $state(true);
    /** Settled once the store is open or known not to open: what is tapped before waits for it */
    #opened: Promise<void> = Promise.resolve();

    async start() {
        engine.onstate = () => {
            this.core = engine.ready ? 'ready' : 'starting';
            this.restarts = engine.restarts;
        };
        this.#opened = this.openStore();
        await this.#opened;
        await this.follow();
        this.opening = false;
        this.loadCore();
    }

    loadCore() {
        engine.start().then(() => (this.core = 'ready'), () => (this.core = 'failed'));
    }

    async openStore() {
        try {
            this.store = await Store.open({ trouble: (what) => (this.trouble = what) });
            if (this.trouble === 'blocked') this.trouble = 'none';
            await this.refresh();
        } catch (failure) {
            this.trouble = troubleOf(failure);
        }
        this.health = await look(navigator.storage);
    }

    async refresh() {
        if (this.store) this.books = await this.store.books();
    }

    /** Opens or closes the job that the address names. */
    async follow() {
        const route = router.current;
        if (route.screen !== 'job') {
            this.job?.close();
            this.job = null;
            await this.refresh();
            return;
        }
        if (this.job?.id === route.book || !this.store) return;
        this.job?.close();
        this.job = null;
        const card = await this.store.card(route.book);
        if (!card) {
            this.notice = 'That job is not on this device any more.';
            router.go({ screen: 'doors' });
            return;
        }
        this.job = await Job.open(this.store, card);
    }

    /** What was typed becomes a book; answers with its id, or null where it could not be kept. */
    async keep(drafts: readonly Draft[], place: Place): Promise<string | null> {
        await this.#opened;
        if (!this.store) {
            this.notice = 'This browser keeps nothing here, so no job can be made. What you typed stays on the screen.';
            return null;
        }
        try {
            const now = new Date();
            const { id } = await this.store.create(drafts, settings.by, now, timeStamp(now));
            await this.kept();
            router.go({ screen: 'job', book: id, place });
            return id;
        } catch (failure) {
            this.failed(failure);
            return null;
        }
    }

    /** A file's text becomes a job, after the core has said that it is a book. */
    async take(text: string, place: Place = 'check'): Promise<string | null> {
        try {
            await engine.ask('levels', {}, { book: text });
            await this.#opened;
            if (!this.store) throw new NotKept('refused', new Error('this browser keeps nothing here'));
            const id = await this.store.take(text, new Date());
            await this.kept();
            router.go({ screen: 'job', book: id, place });
            return id;
        } catch (failure) {
            this.failed(failure);
            return null;
        }
    }

    failed(failure: unknown) {
        if (failure instanceof NotKept) {
            this.trouble = failure.trouble;
            this.notice = `Not kept: ${failure.message}`;
        } else {
            this.notice = failure instanceof Error ? failure.message : String(failure);
        }
    }

    async kept() {
        if (this.health.persisted === false) await askToPersist(navigator.storage);
        this.health = await look(navigator.storage);
        await this.refresh();
    }
}

export const app = new App();
