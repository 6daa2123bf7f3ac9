import { expect, test } from 'vitest';
import { join } from '../../src/entries/join';

const book = '{"kind":"book","id":"A-1","format":"fallwright","version":1,"unit":"m"}';
const first = '{"kind":"reading","id":"A-2","point":"p","staff":1.000}';
const other = '{"kind":"reading","id":"B-1","point":"q","staff":2.000}';

test('what both have stays once, what is new comes as it stands', () => {
    const joined = join([book, first], [book, '{"staff":1.0,"id":"A-2","kind":"reading","point":"p"}', other].join('\n'));
    expect(joined).toEqual({ added: [other], same: 1, conflicts: [], refused: null });
});

test('one id with two contents is a conflict, and so is one name', () => {
    const bench = (id: string, level: number) => JSON.stringify({ kind: 'benchmark', id, point: 'BM1', level });
    const joined = join([book, first, bench('A-3', 10)], [book, first.replace('1.000', '1.001'), bench('B-9', 10.5)].join('\n'));
    expect(joined.conflicts.map((each) => each.id)).toEqual(['A-2', 'benchmark BM1']);
    expect(joined.added).toEqual([]);
});

test('weighted benchmarks are observations and may stand twice', () => {
    const bench = (id: string, level: number) => JSON.stringify({ kind: 'benchmark', id, point: 'BM1', level, sd: 0.002 });
    expect(join([book, bench('A-3', 10)], [book, bench('B-9', 10.001)].join('\n')).added).toHaveLength(1);
});

test.each([['not a book', '{"kind":"remark"}'], ['another unit', book.replace('"m"', '"ft"')], ['ids missing', `${book}\n{"kind":"remark","text":"x"}`], ['empty', '']])('%s is refused', (_, text) => {
    const joined = join([book, first], text);
    expect(joined.refused).not.toBeNull();
    expect(joined.added).toEqual([]);
});
