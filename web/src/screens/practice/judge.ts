// What a practice reading is worth, and which slip it looks like. A block is 10 mm (0.01 ft) and figures stand every
// 100 mm (0.1 ft): slips of a block, of a figure, of a metre have names; so have HIGH taken for LOW, a receiver's
// figure left out, counting the wrong way from a figure, and two figures swapped (common practice, no source).
import type { Unit } from '$api';
import type { Task } from './task';

export type Grade = 'right' | 'eye' | 'slip' | 'wrong';

export interface Judgement {
    /** Typed less truth, thousandths */
    off: number;
    grade: Grade;
    /** Short: for the headline and for the history */
    name: string;
    /** Why, in a sentence */
    why: string;
}

/** "1.432" or "1432" as thousandths; a reading upside down may be booked with its minus. */
export function thousandths(figure: string): number {
    return Math.abs(Math.round(Number(figure) * 1000));
}

export function sizeOf(size: number, unit: Unit): string {
    return unit === 'm' ? `${size} mm` : `${(size / 1000).toFixed(3).replace(/\.?0+$/, '')} ft`;
}

function figureOf(value: number): string {
    return (value / 1000).toFixed(3);
}

interface Slip {
    name: string;
    why: string;
}

function ofReceiver(task: Task, said: number): Slip | null {
    if (task.receiver === null) return null;
    const { side, by } = task.receiver;
    const close = (to: number) => Math.abs(said - to) <= task.reach;
    const word = side.toUpperCase();
    if (close(2 * task.line - task.truth)) return { name: `${word} taken for ${side === 'high' ? 'LOW' : 'HIGH'}`, why: `${word}: the receiver stands ${side === 'high' ? 'above' : 'below'} the light.` };
    if (close(task.line) && by > task.reach) return { name: 'The receiver left out', why: `The mark alone is where the receiver is held; the light is ${sizeOf(by, task.unit)} ${side === 'high' ? 'below' : 'above'} it.` };
    return null;
}

/** Counted from the figure in the wrong direction: 1.468 for 1.432, or 1.368. */
function ofDirection(task: Task, said: number): Slip | null {
    const past = task.line % 100;
    const base = task.line - past;
    const close = (to: number) => past > 5 && past < 95 && Math.abs(past - 50) > 5 && Math.abs(said - to) <= task.reach;
    if (task.receiver !== null || !(close(base + 100 - past) || close(base - past))) return null;
    return { name: 'Counted the wrong way', why: task.inverted ? 'Upside down, figures grow downwards: count down from the smaller figure.' : 'Figures grow upwards: count up from the figure below the light.' };
}

function ofSteps(off: number, task: Task): Slip | null {
    const size = Math.abs(off);
    const steps: [number, (count: number) => string][] = [
        [1000, () => (task.unit === 'm' ? 'Look at the figure before the point: the metre is another one.' : 'Look at the figure before the point: the foot is another one.')],
        [100, () => 'The wrong figure was taken: the blocks were counted well, from a figure that is not the nearest below.'],
        [10, (count) => (count === 5 ? 'Half of the hundred was missed: five blocks. The blocks joined into one shape are the lower five.' : `${count === 1 ? 'One block' : `${count} blocks`} miscounted. From the figure, count the dark and the light ones; the joined ones end at five.`)],
    ];
    for (const [step, why] of steps) {
        const count = Math.round(size / step);
        if (count < 1 || count > 9 || Math.abs(size - count * step) > task.reach) continue;
        return { name: `A slip of ${sizeOf(count * step, task.unit)}`, why: why(count) };
    }
    return null;
}

function ofSwap(task: Task, said: number): Slip | null {
    const [a, b] = [String(said).padStart(4, '0'), String(task.truth).padStart(4, '0')];
    if (a.length !== b.length) return null;
    const apart = [...a].map((_, i) => i).filter((i) => a[i] !== b[i]);
    const [first, second] = apart;
    if (apart.length !== 2 || second !== first! + 1 || a[first!] !== b[second] || a[second] !== b[first!]) return null;
    return { name: 'Two figures swapped', why: `${figureOf(task.truth)} was said as ${figureOf(said)}.` };
}

export function judge(task: Task, said: number): Judgement {
    const off = said - task.truth;
    const size = Math.abs(off);
    if (off === 0) return { off, grade: 'right', name: 'Right', why: task.unit === 'm' ? 'To the millimetre.' : 'To the thousandth.' };
    if (size <= task.reach) return { off, grade: 'eye', name: `${sizeOf(size, task.unit)} off`, why: 'As good as an eye gets here.' };
    const slip = ofReceiver(task, said) ?? ofSwap(task, said) ?? (task.inverted ? ofDirection(task, said) : null) ?? ofSteps(off, task) ?? ofDirection(task, said);
    if (slip !== null) return { off, grade: 'slip', ...slip };
    return { off, grade: 'wrong', name: `${sizeOf(size, task.unit)} too ${off > 0 ? 'large' : 'small'}`, why: size < 10 ? 'Within the block: part it into ten by eye.' : 'Start at the nearest figure and count blocks from there.' };
}
