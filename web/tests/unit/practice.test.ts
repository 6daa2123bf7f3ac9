// Practice: figures as staffs carry them (blocks of 10 mm, figures every 100 mm: common practice, no source), HIGH and LOW
// as receivers show them (docs/formats: high stands above the beam; upside down figures run downwards).
import { describe, expect, test } from 'vitest';
import { KEPT, readyFor, summaryOf, withDone, type Done } from '../../src/screens/practice/history';
import { judge, sizeOf, thousandths } from '../../src/screens/practice/judge';
import { atTheLight, LEVELS, nextTask, randomFrom, type Task } from '../../src/screens/practice/task';

const plain: Task = { level: 'near', unit: 'm', line: 1432, truth: 1432, inverted: false, blurred: false, window: 220, reach: 1, receiver: null };

describe('what is asked', () => {
    test('a written seed gives the same staffs again, another one others', () => {
        const some = (seed: number) => {
            const random = randomFrom(seed);
            return LEVELS.flatMap((level) => [nextTask(level, 'm', random), nextTask(level, 'm', random)]);
        };
        expect(some(4)).toEqual(some(4));
        expect(some(4)).not.toEqual(some(5));
        expect(some(20260504).map((each) => each.truth)).toMatchInlineSnapshot(`
          [
            1296,
            3026,
            2670,
            2050,
            1804,
            2318,
            2774,
            640,
            2807,
            3799,
            2956,
            2115,
          ]
        `);
    });
    test.each(['m', 'ft'] as const)('in %s every level asks what its name says, on the staff', (unit) => {
        const random = randomFrom(1);
        for (const level of LEVELS) {
            for (let i = 0; i < 200; i += 1) {
                const task = nextTask(level, unit, random);
                expect(Number.isInteger(task.truth)).toBe(true);
                expect(task.truth).toBeGreaterThan(250);
                expect(task.truth).toBeLessThan(unit === 'm' ? 4000 : 13_000);
                if (level !== 'all') {
                    expect([task.inverted, task.blurred, task.receiver !== null, task.window > 220]).toEqual([level === 'inverted', level === 'blurred', level === 'receiver', level === 'far']);
                }
            }
        }
    });
    test.each([['high', false, 1488], ['low', false, 1512], ['high', true, 1512], ['low', true, 1488]] as const)('%s, upside down %s: 1.500 and 12 mm is %i', (side, inverted, truth) => {
        expect(atTheLight(1500, { side, by: 12 }, inverted)).toBe(truth);
    });
});

describe('what it is worth', () => {
    test.each([
        [1432, 'right', 'Right'], [1433, 'eye', '1 mm off'], [1442, 'slip', 'A slip of 10 mm'], [1412, 'slip', 'A slip of 20 mm'], [1482, 'slip', 'A slip of 50 mm'],
        [1532, 'slip', 'A slip of 100 mm'], [1331, 'slip', 'A slip of 100 mm'], [2432, 'slip', 'A slip of 1000 mm'], [1423, 'slip', 'Two figures swapped'],
        [1468, 'slip', 'Counted the wrong way'], [1368, 'slip', 'Counted the wrong way'], [1437, 'wrong', '5 mm too large'], [1418, 'wrong', '14 mm too small'],
    ])('%i for 1432 is %s: %s', (said, grade, name) => expect(judge(plain, said)).toMatchObject({ off: said - 1432, grade, name }));
    test('a receiver: HIGH taken for LOW, and its figure left out', () => {
        const task: Task = { ...plain, level: 'receiver', line: 1500, truth: 1488, receiver: { side: 'high', by: 12 } };
        expect(judge(task, 1488).grade).toBe('right');
        expect(judge(task, 1512)).toMatchObject({ grade: 'slip', name: 'HIGH taken for LOW' });
        expect(judge(task, 1500)).toMatchObject({ grade: 'slip', name: 'The receiver left out' });
    });
    test('upside down, the direction is named before the blocks', () => {
        const task: Task = { ...plain, level: 'inverted', line: 1430, truth: 1430, inverted: true };
        expect(judge(task, 1470).name).toBe('Counted the wrong way');
        expect(judge({ ...task, inverted: false }, 1470).name).toBe('A slip of 40 mm');
    });
    test('feet', () => {
        const task: Task = { ...plain, unit: 'ft', line: 4705, truth: 4705 };
        expect(judge(task, 4605).name).toBe('A slip of 0.1 ft');
        expect(judge(task, 4715).name).toBe('A slip of 0.01 ft');
        expect(judge(task, 3705).name).toBe('A slip of 1 ft');
        expect([sizeOf(5, 'ft'), sizeOf(120, 'ft'), sizeOf(7, 'm')]).toEqual(['0.005 ft', '0.12 ft', '7 mm']);
    });
    test('a figure with its minus upside down is that figure', () => expect([thousandths('-1.432'), thousandths('1.432'), thousandths('0.002')]).toEqual([1432, 1432, 2]));
});

describe('what stays', () => {
    const done = (off: number, took: number, level: Done['level'] = 'near'): Done => ({ at: 0, level, unit: 'm', off, grade: off === 0 ? 'right' : 'slip', took });
    test('no more than is useful', () => {
        let history: Done[] = [];
        for (let i = 0; i < KEPT + 5; i += 1) history = withDone(history, done(i, 1000));
        expect(history.length).toBe(KEPT);
        expect(history[0]!.off).toBe(5);
    });
    test('medians of the last twenty of that level and unit', () => {
        const history = [done(0, 2000), done(-10, 4000), done(100, 60_000), done(0, 1, 'far')];
        expect(summaryOf(history, 'near', 'm')).toEqual({ count: 3, good: 1, slips: 2, off: 10, seconds: 4 });
        expect(summaryOf(history, 'near', 'ft')).toBeNull();
        expect(summaryOf(history, 'blurred', 'm')).toBeNull();
    });
    test('five good and quick ones are enough for the next level; the last one has none', () => {
        const five = Array.from({ length: 5 }, () => done(0, 3000));
        expect(readyFor(five, 'near', 'm')).toBe('far');
        expect(readyFor(five.slice(1), 'near', 'm')).toBeNull();
        expect(readyFor([...five, done(0, 11_000)], 'near', 'm')).toBeNull();
        expect(readyFor([...five, done(10, 3000)], 'near', 'm')).toBeNull();
        expect(readyFor(Array.from({ length: 5 }, () => done(0, 1, 'all')), 'all', 'm')).toBeNull();
    });
});
