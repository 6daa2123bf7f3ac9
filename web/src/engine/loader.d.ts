// What shells/wasm/loader.mjs gives; the module itself is plain JavaScript, shared with Node.
export class EngineError extends Error {
    code: 'refused' | 'memory' | 'trap' | 'lost';
    finding?: { message: string; cure: string };
}
export interface OpenBook {
    run(request: { verb: string; options: unknown }): string;
    close(): void;
}
export interface LoadedEngine {
    readonly version: string;
    open(text: string | Uint8Array): OpenBook;
    answer(request: { verb: string; options: unknown; book?: string }): string;
}
export function loadEngine(source: BufferSource | WebAssembly.Module): Promise<LoadedEngine>;
