// The one engine of this page.
import wasm from '$core?url';
import { Engine } from './engine';

let compiled: Promise<WebAssembly.Module> | null = null;

// Compiled once; a worker that is started anew gets the module that is there already.
function module(): Promise<WebAssembly.Module> {
    compiled ??= fetch(wasm)
        .then(async (response) => {
            if (!response.ok) throw new Error(`the core could not be loaded (${response.status})`);
            return WebAssembly.compile(await response.arrayBuffer());
        })
        .catch((failure: unknown) => {
            compiled = null;
            throw failure;
        });
    return compiled;
}

export const engine = new Engine(
    () => new Worker(new URL('./engine.worker.ts', import.meta.url), { type: 'module' }),
    module,
);
export { NoAnswer } from './engine';
