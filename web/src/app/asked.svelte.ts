// A question that follows what is typed: asked anew at every change, the newest answer shown, the last one kept until then.
import { engine, NoAnswer } from '../engine';
import type { AnswerOf, Verb } from '../engine/engine';

export class Asked<V extends Verb> {
    answer = $state.raw<AnswerOf<V> | null>(null);
    wrong = $state('');
    #slot: string;
    #turn = 0;

    constructor(slot: string) {
        this.#slot = slot;
    }

    clear() {
        this.#turn += 1;
        this.answer = null;
        this.wrong = '';
    }

    async ask(verb: V, options: unknown, book?: string) {
        const turn = ++this.#turn;
        try {
            const answer = await engine.ask(verb, options, { slot: this.#slot, ...(book === undefined ? {} : { book }) });
            if (turn !== this.#turn) return;
            this.answer = answer;
            this.wrong = '';
        } catch (failure) {
            if (turn !== this.#turn || (failure instanceof NoAnswer && failure.why === 'stale')) return;
            this.answer = null;
            const cure = failure instanceof NoAnswer ? failure.finding?.cure : '';
            this.wrong = `${failure instanceof Error ? failure.message : String(failure)}${cure ? `; ${cure}` : ''}`;
        }
    }
}
