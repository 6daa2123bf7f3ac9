// How this device shows things: theme, hand, unit of new books, who books.
import { Remembered } from './remembered.svelte';

export type Theme = 'auto' | 'sun' | 'night';
export type Hand = 'right' | 'left';

class Settings {
    #theme = new Remembered<Theme>('theme', 'auto');
    #hand = new Remembered<Hand>('hand', 'right');
    #unit = new Remembered<'m' | 'ft'>('unit', 'm');
    #by = new Remembered<string>('by', '');
    #speech = new Remembered<boolean>('speech', false);
    #buzz = new Remembered<boolean>('buzz', true);

    get theme() { return this.#theme.value; }
    set theme(next) { this.#theme.value = next; }
    get hand() { return this.#hand.value; }
    set hand(next) { this.#hand.value = next; }
    get unit() { return this.#unit.value; }
    set unit(next) { this.#unit.value = next; }
    get by() { return this.#by.value; }
    set by(next) { this.#by.value = next; }
    get speech() { return this.#speech.value; }
    set speech(next) { this.#speech.value = next; }
    get buzz() { return this.#buzz.value; }
    set buzz(next) { this.#buzz.value = next; }
}

export const settings = new Settings();
