/// <reference lib="webworker" />
// The core in a thread of its own: a long evaluation never stops the person's next tap.
import { EngineError, loadEngine, type LoadedEngine, type OpenBook } from '$loader';
import type { Finding } from '$api';
import type { FromWorker, Job, ToWorker } from './protocol';

const scope = self as unknown as DedicatedWorkerGlobalScope;
let engine: LoadedEngine | null = null;
let text: string | null = null;
let book: OpenBook | null = null;

function say(message: FromWorker) {
    scope.postMessage(message);
}

function opened(wanted: string): OpenBook {
    if (book !== null && text === wanted) return book;
    book?.close();
    book = null;
    book = engine!.open(wanted);
    text = wanted;
    return book;
}

function work(job: Job) {
    const request = { verb: job.verb, options: job.options };
    try {
        const answer = job.book === undefined ? engine!.answer(request) : opened(job.book).run(request);
        say({ id: job.id, answer });
    } catch (failure) {
        if (failure instanceof EngineError && failure.code === 'refused') {
            say({ id: job.id, refused: failure.finding as Finding });
        } else {
            // The loader has dropped the instance; its open book went with it.
            book = null;
            text = null;
            say({ id: job.id, failed: failure instanceof Error ? failure.message : String(failure) });
        }
    }
}

scope.onmessage = async (event: MessageEvent<ToWorker>) => {
    if ('start' in event.data) {
        engine = await loadEngine(event.data.start);
        say({ ready: engine.version });
    } else {
        work(event.data);
    }
};
