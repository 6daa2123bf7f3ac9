// Figures as people see them. Formats what the core has worked out; works out nothing.
import type { Unit } from '$api';

const MINUS = '\u2212';

function fixed(value: number, places: number): string {
    const text = Math.abs(value).toFixed(places);
    return value < 0 && Number(text) !== 0 ? MINUS + text : text;
}

/** A level, reading or chainage: metres or feet, three decimals. */
export function length(value: number | null | undefined): string {
    return value == null ? '\u2013' : fixed(value, 3);
}

/** A small length without sign: whole millimetres, or thousandths of a foot. */
export function small(value: number | null | undefined, unit: Unit, places = 0): string {
    if (value == null) return '\u2013';
    return unit === 'ft' ? `${Math.abs(value).toFixed(3)} ft` : `${Math.abs(value * 1000).toFixed(places)} mm`;
}

/** An uncertainty with its sign: "± 2.1 mm". */
export function plusMinus(sd: number | null | undefined, unit: Unit): string {
    if (sd == null) return '';
    return unit === 'ft' ? `\u00b1 ${sd.toFixed(3)} ft` : `\u00b1 ${(sd * 1000).toFixed(1)} mm`;
}

/** A deviation in words: "18 mm high", "on grade". */
export function highLow(value: number | null | undefined, unit: Unit): string {
    if (value == null) return '\u2013';
    const words = small(value, unit);
    if (Number.parseFloat(words) === 0) return 'on grade';
    return `${words} ${value > 0 ? 'high' : 'low'}`;
}

/** A gradient the way the trade says it: "1 in 80 falling". */
export function oneIn(ratio: number | null | undefined, words: [string, string] = ['rising', 'falling']): string {
    if (ratio == null) return '\u2013';
    if (Math.abs(ratio) < 1e-7) return 'level';
    return `1 in ${steepness(1 / Math.abs(ratio))} ${ratio > 0 ? words[0] : words[1]}`;
}

/** The N of 1 in N. */
export function steepness(n: number): string {
    return n.toFixed(n >= 100 ? 0 : 1).replace(/\.0$/, '');
}

export function percent(ratio: number | null | undefined): string {
    return ratio == null ? '\u2013' : `${fixed(ratio * 100, 3)} %`;
}

/** With a capital, to begin a sentence. */
export function sentence(words: string): string {
    return words.charAt(0).toUpperCase() + words.slice(1);
}

/** What was read, in words: a chamber has an outlet and an inlet. */
export function whatSaid(what: string): string {
    return what === 'laid out' ? 'laid, outlet' : what === 'laid in' ? 'laid, inlet' : what;
}

/** A probability, two figures: "98 %", "under 1 %". */
export function chance(p: number | null | undefined): string {
    if (p == null) return '\u2013';
    if (p > 0.995) return 'over 99 %';
    if (p < 0.005) return 'under 1 %';
    return `${(p * 100).toFixed(p < 0.1 ? 1 : 0)} %`;
}

/** A figure of a machine's own display, with its sign always. */
export function shown(value: number | null | undefined, unit: '%' | 'permille'): string {
    if (value == null) return 'beyond its limit';
    const sign = value > 0 ? '+' : value < 0 ? MINUS : '';
    return `${sign}${Math.abs(value).toFixed(3)} ${unit === '%' ? '%' : '\u2030'}`;
}
