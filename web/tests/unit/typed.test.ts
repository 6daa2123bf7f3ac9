// How figures are keyed: the habit of reading staffs in millimetres (common practice, no source).
import { describe, expect, test } from 'vitest';
import { typedFall, typedNumber, typedReading, typedSmall } from '../../src/entries/typed';

describe('a reading as keyed', () => {
    test.each([['1432', '1.432'], ['1.432', '1.432'], ['1,432', '1.432'], ['2', '0.002'], ['12000', '12.000'], ['-815', '-0.815'], ['.5', '.5'], ['1.', '1']])('%s is %s', (typed, meant) => {
        expect(typedReading(typed, 'm')).toBe(meant);
        expect(Number(typedReading(typed, 'm'))).toBeCloseTo(Number(meant), 9);
    });
    test.each(['', '.', '-', '1.4.3', 'x', '1 432'])('"%s" is no figure', (typed) => expect(typedReading(typed, 'm')).toBeNull());
    test('feet stay as typed, the core reads them', () => expect(typedReading('4\' 8 1/4"', 'ft')).toBe('4\' 8 1/4"'));
});

test('levels and chainages are in whole units', () => {
    expect(typedNumber('50')).toBe(50);
    expect(typedNumber('\u22121.5')).toBe(-1.5);
    expect(typedNumber('1 in 80')).toBeNull();
});

test('millimetres beside HIGH and LOW', () => {
    expect(typedSmall('7', 'm')).toBe(0.007);
    expect(typedSmall('12.5', 'm')).toBe(0.0125);
    expect(typedSmall('-3', 'm')).toBeNull();
    expect(typedSmall('0.02', 'ft')).toBe(0.02);
});

test.each([['80', '1 in 80 fall'], ['1.25 %', '-1.25 %'], ['1 in 60 rise', '1 in 60 rise'], ['1 in 60', '1 in 60 fall'], ['1:60', '1:60 fall'], ['-0.5 %', '-0.5 %'], ['0', '0']])(
    'a fall typed as %s is %s', (typed, meant) => expect(typedFall(typed)).toBe(meant));
test('no fall where nothing is typed', () => expect(typedFall('  ')).toBeNull());
