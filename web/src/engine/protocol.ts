// What passes between the page and the worker that holds the core.
import type { Finding } from '$api';

export interface Job {
    id: number;
    verb: string;
    options: unknown;
    /** Text of a book; the worker keeps the last one open and knows it again. Absent: a request without a book. */
    book?: string;
}

export type ToWorker = { start: WebAssembly.Module } | Job;

export type FromWorker =
    | { ready: string }
    | { id: number; answer: string }
    | { id: number; refused: Finding }
    | { id: number; failed: string };
