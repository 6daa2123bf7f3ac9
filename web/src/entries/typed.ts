// Figures as they are keyed on site. Without a point a metric figure is in millimetres, as staffs are read: 1432 is 1.432.

/** The text for the core ("1.432"), or null where it is no figure. Feet stay as typed: the core reads inches and tenths. */
export function typedReading(text: string, unit: 'm' | 'ft'): string | null {
    const plain = text.trim().replace(',', '.').replace('\u2212', '-');
    if (unit === 'ft') return /\d/.test(plain) ? plain : null;
    if (/^-?\d+$/.test(plain)) return milli(plain);
    return /^-?(\d+\.\d*|\.\d+)$/.test(plain) ? plain.replace(/\.$/, '') : null;
}

function milli(digits: string): string {
    const sign = digits.startsWith('-') ? '-' : '';
    const padded = digits.replace('-', '').padStart(4, '0');
    return `${sign}${padded.slice(0, -3).replace(/^0+(?=\d)/, '')}.${padded.slice(-3)}`;
}

/** A number, or null; for levels, chainages and distances, where a figure without a point is in whole units. */
export function typedNumber(text: string): number | null {
    const plain = text.trim().replace(',', '.').replace('\u2212', '-');
    return /^-?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : null;
}

/** Millimetres typed beside HIGH or LOW, in the book's unit; feet are typed in thousandths' decimals. */
export function typedSmall(text: string, unit: 'm' | 'ft'): number | null {
    const value = typedNumber(text);
    if (value === null || value < 0) return null;
    return unit === 'ft' ? value : Number((value / 1000).toFixed(7));
}

/** A gradient as typed; the core reads it. A bare figure is "1 in N". */
export function typedFall(text: string, word: 'fall' | 'rise' = 'fall'): string | null {
    const plain = text.trim().replace(',', '.');
    if (plain === '' || !/\d/.test(plain)) return null;
    if (/^\d+\.?\d*$/.test(plain)) return Number(plain) === 0 ? '0' : `1 in ${plain} ${word}`;
    if (/(fall|rise|^[-+])/.test(plain)) return plain;
    return /^\d+\.?\d*\s*:\s*\d/.test(plain) || / in /.test(plain) ? `${plain} ${word}` : (word === 'fall' ? `-${plain}` : plain);
}
