import { expect, test } from 'vitest';
import { entriesOf, linesOf, makeLines, newDevice, standing, timeStamp } from '../../src/entries/entry';
import { textOf, fallBook } from '../../src/entries/doors';

test('times carry the offset of the place (RFC 3339, section 5.8)', () => {
    const when = new Date('1996-12-20T00:39:57Z');
    expect(timeStamp(when, -8 * 60)).toBe('1996-12-19T16:39:57-08:00');
    expect(timeStamp(when, 0)).toBe('1996-12-20T00:39:57+00:00');
    expect(timeStamp(when, 330)).toBe('1996-12-20T06:09:57+05:30');
});

test('ids count on, kind comes first, who booked is left out where nobody said', () => {
    const made = makeLines([{ kind: 'remark', text: 'a' }, { kind: 'remark', text: 'b' }], { device: 'K1', counter: 13, by: '', at: '2026-05-04T08:30:00+01:00' });
    expect(made.ids).toEqual(['K1-14', 'K1-15']);
    expect(made.lines[0]).toBe('{"kind":"remark","id":"K1-14","at":"2026-05-04T08:30:00+01:00","text":"a"}');
    expect(made.counter).toBe(15);
});

test('a device has a name without look-alikes', () => {
    for (let i = 0; i < 256; i += 1) expect(newDevice((size) => new Uint8Array(size).fill(i))).toMatch(/^[A-HJ-NP-Z][A-HJ-NP-Z2-9]{4}$/);
});

test('lines of a file keep their numbers', () => {
    expect(linesOf('\uFEFFa\r\n\r\nb\n\n')).toEqual(['a', '', 'b']);
    const entries = entriesOf(['{"kind":"book"}', '{"kind":"rea', '', '{"kind":"remark","text":"x"}', '[1]', '"kind"']);
    expect(entries.map((each) => each.id)).toEqual(['#1', '#4']);
});

test('amendments and strikes stand as the contract has them', () => {
    const lines = [
        { kind: 'reading', id: 'a', point: 'p', high: 0.007 },
        { kind: 'amend', id: 'b', of: 'a', set: { high: null, low: 0.007 }, why: 'w' },
        { kind: 'reading', id: 'c', point: 'q', staff: 1 },
        { kind: 'strike', id: 'd', of: 'c', why: 'w' },
    ].map((each) => JSON.stringify(each));
    expect(standing(entriesOf(lines))).toEqual([{ kind: 'reading', id: 'a', point: 'p', low: 0.007 }]);
    const undone = standing(entriesOf([...lines, '{"kind":"strike","id":"e","of":"d","why":"w"}', '{"kind":"strike","id":"f","of":"b","why":"w"}']));
    expect(undone.map((each) => each.id)).toEqual(['a', 'c']);
    expect(undone[0]).toMatchObject({ high: 0.007 });
});

test('a door makes a book of a line each', () => {
    const text = textOf(fallBook({ unit: 'm', readings: [1.432, 2.118], over: 54.88 }));
    const kinds = text.trim().split('\n').map((line) => (JSON.parse(line) as { kind: string }).kind);
    expect(kinds).toEqual(['book', 'instrument', 'line', 'setup', 'reading', 'reading']);
});
