// The queue before the core: what is stale goes, what died is asked again, nothing is answered twice.
import { beforeEach, expect, test, vi } from 'vitest';
import { Engine, NoAnswer, PATIENCE, type WorkerLike } from '../../src/engine/engine';
import type { Job, ToWorker } from '../../src/engine/protocol';

class Bench implements WorkerLike {
    static all: Bench[] = [];
    onmessage: ((event: MessageEvent) => void) | null = null;
    onerror: ((event: ErrorEvent) => void) | null = null;
    jobs: Job[] = [];
    ended = false;
    constructor() {
        Bench.all.push(this);
    }
    postMessage(message: ToWorker) {
        if ('start' in message) queueMicrotask(() => this.say({ ready: '1.0' }));
        else this.jobs.push(message);
    }
    terminate() {
        this.ended = true;
    }
    say(data: unknown) {
        this.onmessage?.({ data } as MessageEvent);
    }
    answer(text = '{}') {
        this.say({ id: this.jobs.at(-1)!.id, answer: text });
    }
}

const made = () => new Engine(() => new Bench(), () => Promise.resolve({} as WebAssembly.Module));
const settle = () => new Promise((resolve) => setTimeout(resolve, 0));
const last = () => Bench.all.at(-1)!;
beforeEach(() => (Bench.all = []));

test('one question at a time, in order', async () => {
    const engine = made();
    const [a, b] = [engine.ask('evaluate', { n: 1 }), engine.ask('evaluate', { n: 2 })];
    await settle();
    expect(last().jobs).toHaveLength(1);
    last().answer('{"n":1}');
    expect(await a).toEqual({ n: 1 });
    last().answer('{"n":2}');
    expect(await b).toEqual({ n: 2 });
});

test('of one slot only the newest waits', async () => {
    const engine = made();
    const first = engine.ask('evaluate', {});
    const second = engine.ask('evaluate', {}, { slot: 's' });
    const third = engine.ask('evaluate', {}, { slot: 's' });
    await expect(second).rejects.toMatchObject({ why: 'stale' });
    await settle();
    last().answer();
    await first;
    last().answer('{"third":true}');
    expect(await third).toEqual({ third: true });
});

test('a worker that sits on a stale question is ended, the next one is asked of a new one', async () => {
    vi.useFakeTimers();
    const engine = made();
    const old = engine.ask('evaluate', {}, { slot: 's', book: 'old' });
    await vi.advanceTimersByTimeAsync(1);
    const next = engine.ask('evaluate', {}, { slot: 's', book: 'new' });
    await expect(old).rejects.toMatchObject({ why: 'stale' });
    await vi.advanceTimersByTimeAsync(PATIENCE + 1);
    expect(Bench.all).toHaveLength(2);
    expect(Bench.all[0]!.ended).toBe(true);
    expect(last().jobs[0]).toMatchObject({ book: 'new' });
    last().answer('{"ok":true}');
    expect(await next).toEqual({ ok: true });
    vi.useRealTimers();
});

test('a stale question that ends soon costs no restart', async () => {
    vi.useFakeTimers();
    const engine = made();
    engine.ask('evaluate', {}, { slot: 's' }).catch(() => undefined);
    await vi.advanceTimersByTimeAsync(1);
    const next = engine.ask('evaluate', {}, { slot: 's' });
    last().answer();
    last().answer('{"next":true}');
    expect(await next).toEqual({ next: true });
    await vi.advanceTimersByTimeAsync(PATIENCE * 2);
    expect(Bench.all).toHaveLength(1);
    vi.useRealTimers();
});

test('a crash starts a new core, and the question with its book is asked once more', async () => {
    const engine = made();
    const asked = engine.ask('evaluate', {}, { book: 'the book' });
    await settle();
    last().say({ id: last().jobs[0]!.id, failed: 'trap' });
    await settle();
    expect(Bench.all).toHaveLength(2);
    expect(last().jobs[0]).toMatchObject({ book: 'the book' });
    last().answer('{"again":true}');
    expect(await asked).toEqual({ again: true });
    expect(engine.restarts).toBe(1);
});

test('a question that kills the core twice is given up, the one behind it is answered', async () => {
    const engine = made();
    const bad = engine.ask('evaluate', { bad: true });
    const good = engine.ask('evaluate', { good: true });
    await settle();
    last().onerror?.({ message: 'gone' } as ErrorEvent);
    await settle();
    last().onerror?.({ message: 'gone' } as ErrorEvent);
    await expect(bad).rejects.toMatchObject({ why: 'failed' });
    await settle();
    last().answer('{"good":true}');
    expect(await good).toEqual({ good: true });
});

test('what the core refuses carries its finding', async () => {
    const engine = made();
    const [a, b] = [engine.ask('levels', {}, { book: 'x' }), engine.ask('fall', {})];
    await settle();
    last().say({ id: last().jobs[0]!.id, refused: { message: 'no book', cure: 'open one' } });
    await expect(a).rejects.toMatchObject({ why: 'refused', finding: { cure: 'open one' } });
    last().answer('{"error":{"message":"no reading"}}');
    await expect(b).rejects.toBeInstanceOf(NoAnswer);
});

test('where the module cannot be loaded every question is told, and a later start may work', async () => {
    let there = false;
    const engine = new Engine(() => new Bench(), () => (there ? Promise.resolve({} as WebAssembly.Module) : Promise.reject(new Error('offline'))));
    await expect(engine.ask('fall', {})).rejects.toMatchObject({ why: 'failed', message: 'offline' });
    there = true;
    const asked = engine.ask('fall', {});
    await settle();
    last().answer();
    expect(await asked).toEqual({});
});
