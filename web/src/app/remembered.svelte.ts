// What a person has half typed or chosen, kept through a reload: small, local, and no part of any book.

export class Remembered<T> {
    #key: string;
    #value: T;

    constructor(key: string, initial: T) {
        this.#key = `fallwright-${key}`;
        this.#value = $state(read(this.#key, initial));
    }

    get value(): T {
        return this.#value;
    }

    set value(next: T) {
        this.#value = next;
        try {
            if (next === null || next === '') localStorage.removeItem(this.#key);
            else localStorage.setItem(this.#key, JSON.stringify(next));
        } catch {
            // A browser that keeps nothing: the value lives as long as the window.
        }
    }
}

function read<T>(key: string, initial: T): T {
    try {
        const text = localStorage.getItem(key);
        return text === null ? initial : (JSON.parse(text) as T);
    } catch {
        return initial;
    }
}
