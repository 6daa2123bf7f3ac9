// The loader of the WebAssembly module: the only code that knows pointers. Runs in Node, browsers and workers.
//
//     const engine = await loadEngine(bytes);              // bytes of fallwright.wasm, or a compiled Module
//     const book = engine.open(text);                      // text or Uint8Array of a book file
//     const answer = book.run({ verb: 'evaluate', options: {} });   // JSON text, as the command line gives it
//     book.close();
//     engine.answer({ verb: 'fall', options: {...} });     // requests that need no open book
//
// Calls are synchronous: put the engine into a worker where a book is large. Errors are EngineError with `code`:
//   refused   the text is no book; `finding` says why, `answer` is the whole answer as bytes
//   memory    no memory left         trap   the module failed inside
//   lost      the book belongs to an instance that was given up after memory or trap: open it again
// After memory or trap the instance is dropped, and the next call starts a new one from the compiled module.

const utf8Out = new TextEncoder();
const utf8In = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });

export class EngineError extends Error {
    constructor(code, message, details = {}) {
        super(message);
        this.name = 'EngineError';
        this.code = code;
        Object.assign(this, details);
    }
}

export async function loadEngine(source) {
    const module = source instanceof WebAssembly.Module ? source : await WebAssembly.compile(source);
    const engine = new Engine(module);
    await engine.start();
    return engine;
}

function bytesOf(input) {
    if (input instanceof Uint8Array) return input;
    return utf8Out.encode(typeof input === 'string' ? input : JSON.stringify(input));
}

class Engine {
    #module;
    #exports = null;
    #said = '';
    #age = 0;

    constructor(module) {
        this.#module = module;
    }

    // Browsers compile nothing here: the module is compiled already, only memory and tables are made.
    async start() {
        this.#enter(await WebAssembly.instantiate(this.#module, this.#imports()));
    }

    get version() {
        return this.#guard((wasm) => {
            const start = wasm.fw_version();
            const memory = new Uint8Array(wasm.memory.buffer);
            return utf8In.decode(memory.slice(start, memory.indexOf(0, start)));
        });
    }

    // Bytes of memory the instance holds now; it grows and is returned only with the instance.
    get memoryBytes() {
        return this.#guard((wasm) => wasm.memory.buffer.byteLength);
    }

    open(book) {
        const { pointer, status, bytes } = this.#guard((wasm) =>
            this.#withInput(wasm, bytesOf(book), (start, size) => this.#read(wasm, wasm.fw_open(start, size))));
        if (status === 0) return new Book(this, pointer, this.#age);
        this.release(pointer, this.#age);
        const finding = JSON.parse(utf8In.decode(bytes)).error;
        throw new EngineError('refused', finding.message, { finding, answer: bytes });
    }

    // One request that says everything itself: {verb, book, options}. Answers with JSON text.
    answer(request) {
        return utf8In.decode(this.answerBytes(request));
    }

    answerBytes(request) {
        return this.runBytes(0, this.#age, request);
    }

    // For Book; `age` tells to which instance the pointer belongs.
    runBytes(pointer, age, request) {
        if (pointer !== 0 && age !== this.#age) {
            throw new EngineError('lost', 'the engine was restarted; open the book again');
        }
        return this.#guard((wasm) => {
            const reply = this.#withInput(wasm, bytesOf(request), (start, size) =>
                this.#read(wasm, wasm.fw_run(pointer, start, size)));
            wasm.fw_free(reply.pointer);
            return reply.bytes;
        });
    }

    release(pointer, age) {
        if (age === this.#age) this.#guard((wasm) => wasm.fw_free(pointer));
    }

    #enter(instance) {
        this.#exports = instance.exports;
        this.#said = '';
        this.#exports._initialize();
    }

    #guard(work) {
        if (this.#exports === null) this.#enter(new WebAssembly.Instance(this.#module, this.#imports()));
        try {
            return work(this.#exports);
        } catch (failure) {
            this.#exports = null;
            this.#age += 1;
            if (failure instanceof EngineError) throw failure;
            const said = this.#said.trim();
            throw new EngineError('trap', said || `the engine failed inside: ${failure.message}`, { cause: failure });
        }
    }

    // The memory may grow in any call, which detaches old views: each look takes a new one.
    #withInput(wasm, bytes, use) {
        const start = wasm.malloc(Math.max(bytes.length, 1));
        if (start === 0) throw new EngineError('memory', 'no memory left for the request');
        new Uint8Array(wasm.memory.buffer).set(bytes, start);
        const result = use(start, bytes.length);
        wasm.free(start);
        return result;
    }

    #read(wasm, pointer) {
        if (pointer === 0) throw new EngineError('memory', 'no memory left for the answer');
        const words = new DataView(wasm.memory.buffer, pointer, 12);
        const text = words.getUint32(0, true);
        const size = words.getUint32(4, true);
        const status = words.getInt32(8, true);
        return { pointer, status, bytes: new Uint8Array(wasm.memory.buffer).slice(text, text + size) };
    }

    // What the C library asks of its host. The core prints nothing and opens nothing; only a failing
    // assertion writes, to stderr, and its words become the message of the error.
    #imports() {
        const refuse = () => 52;
        return {
            env: { emscripten_notify_memory_growth() {} },
            wasi_snapshot_preview1: {
                fd_close: refuse,
                fd_seek: refuse,
                fd_write: (fd, vectors, count, written) => this.#write(vectors, count, written),
                proc_exit: (code) => {
                    throw new Error(`exit ${code}`);
                },
            },
        };
    }

    #write(vectors, count, written) {
        const memory = this.#exports.memory.buffer;
        const words = new DataView(memory);
        let total = 0;
        for (let i = 0; i < count; ++i) {
            const start = words.getUint32(vectors + 8 * i, true);
            const size = words.getUint32(vectors + 8 * i + 4, true);
            this.#said += new TextDecoder().decode(new Uint8Array(memory).slice(start, start + size));
            total += size;
        }
        words.setUint32(written, total, true);
        return 0;
    }
}

class Book {
    #engine;
    #pointer;
    #age;

    constructor(engine, pointer, age) {
        this.#engine = engine;
        this.#pointer = pointer;
        this.#age = age;
    }

    // {verb, options} as object, text or bytes; answers with JSON text.
    run(request) {
        return utf8In.decode(this.runBytes(request));
    }

    runBytes(request) {
        if (this.#pointer === 0) throw new EngineError('lost', 'the book is closed');
        return this.#engine.runBytes(this.#pointer, this.#age, request);
    }

    // May be called twice. A book that is not closed keeps its memory as long as the instance lives.
    close() {
        if (this.#pointer !== 0) this.#engine.release(this.#pointer, this.#age);
        this.#pointer = 0;
    }
}
