// What tests do more than once: the first visit, a whole day, the three doors, the demo.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Actor } from './actor.mjs';

export const THUMB = { viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true, deviceScaleFactor: 2 };
export const DESK = { viewport: { width: 1280, height: 800 } };

/** Everything is on the device once this has come back. */
export async function firstVisit(page, address) {
    await page.goto(address);
    await page.locator('[data-offline="kept"]').waitFor();
    await page.getByText('The core is loading').waitFor({ state: 'hidden' });
}

/** A day: benchmarks, a drain, a tolerance, the tripod, the pipe laid, checked and handed over. Gives the saved text. */
export async function day(page, address, hands) {
    const me = new Actor(page, hands);
    await page.goto(`${address}#/`);
    await me.tap('New job');
    await me.type('What the job is called', 'Tannery Row, yard drain');
    await me.tap('Keep the name');
    await me.kept(2);
    await prepare(me);
    await setUp(me);
    await read(me);
    await check(me);
    return handOver(me);
}

async function prepare(me) {
    await me.unfold('Benchmarks');
    for (const [name, level] of [['BM1', '50'], ['BM2', '49.5']]) {
        const before = await me.count();
        await me.type('Name', name, me.page.locator('details[open]').first());
        await me.type('Its level', level);
        await me.tap('Add the benchmark');
        await me.kept(before + 1);
    }
    const lines = await me.unfold('Lines and drains');
    for (const [label, text] of [['Name', 'D1'], ['Invert level at its start', '48.5'], ['Fall', '80'], ['Length', '20'], ['Bore of the pipe', '150']]) await me.type(label, text, lines);
    await me.page.getByText('rules of self-cleansing').waitFor();
    await me.tap('Add the line');
    await me.kept(5);
    await me.unfold('Tolerances');
    await me.type('High by up to', '10');
    await me.tap('Add the tolerance');
    await me.kept(6);
}

async function setUp(me) {
    await me.go('Set up');
    await me.tap('It stands');
    await me.kept(8);
    await me.type('Staff on BM1', '1432');
    await me.tap('Keep this reading');
    await me.kept(9);
    await me.page.getByText('51.432').first().waitFor();
    await me.type('Staff on BM2', '1934');
    await me.tap('Keep this reading');
    await me.kept(10);
    await me.page.locator('[data-ok="true"]').waitFor();
}

async function read(me) {
    const { page } = me;
    await me.go('Read');
    await me.press(page.locator('.now'));
    await me.pick('Along', 'D1');
    await me.press(page.locator('.now'));
    await page.getByText('D1 0.000 laid').first().waitFor();
    // The light stands at 51.433, the invert is wanted at 48.500: the staff should read 2.933 there.
    await page.getByText('The staff should read').waitFor();
    await me.figures('2935');
    await page.locator('.answer', { hasText: '2 mm low' }).waitFor();
    await me.keep();
    await me.kept(11);
    // A figure beyond any staff is asked about, not refused.
    await page.getByText('D1 5.000 laid').first().waitFor();
    await me.figures('12345');
    await me.keep();
    await page.getByRole('alertdialog').waitFor();
    await me.tap('Change it');
    assert.equal(await me.count(), 11);
    for (let i = 0; i < 5; i += 1) {
        if (hands(me)) await me.button('Rub out the last figure').tap();
        else await page.keyboard.press('Backspace');
    }
    await me.choose('Receiver');
    await page.evaluate(() => document.activeElement?.blur());
    for (const [i, [side, mm]] of [['HIGH', '3'], ['LOW', '6'], ['HIGH', '17'], ['On grade', '']].entries()) {
        await page.getByText(`D1 ${5 * (i + 1)}.000 laid`).first().waitFor();
        await me.receiver(side, mm);
        await me.keep();
        await me.kept(12 + i);
    }
    // HIGH taken for LOW at 10: put right with a reason.
    await me.press(page.locator('.last .item').filter({ hasText: 'D1 10.000 laid' }));
    await me.tap('It was HIGH');
    await me.kept(16);
}

const hands = (me) => me.hands === 'thumb';

async function check(me) {
    await me.go('Check');
    const place = me.page.locator('[data-place="check"]');
    await place.getByText('outside').first().waitFor();
    assert.match(await place.locator('.tally').innerText(), /1\s*outside/);
    await place.getByText(/1[678] mm high/).first().waitFor();
}

async function handOver(me) {
    await me.go('Hand over');
    const coming = me.page.waitForEvent('download');
    await me.tap('Save the job');
    const download = await coming;
    assert.equal(download.suggestedFilename(), 'tannery-row-yard-drain.book.jsonl');
    const stream = await download.createReadStream();
    let text = '';
    for await (const part of stream) text += part;
    await me.page.getByText('A saved file has all of it.').waitFor();
    return text;
}

/** The levels as the screen shows them: point to text. */
export async function levelsOnScreen(page) {
    const me = new Actor(page, 'thumb');
    await page.evaluate(() => (location.hash = location.hash.replace(/[^/]*$/, 'check')));
    const part = page.locator('[data-place="check"] details', { has: page.getByRole('heading', { name: 'Levels', exact: true }) });
    await part.waitFor();
    await page.locator('[data-kept][aria-busy="false"]').waitFor();
    if ((await part.getAttribute('open')) === null) await part.locator('summary').click();
    await part.locator('td').first().waitFor();
    void me;
    return Object.fromEntries(await part.locator('tbody tr').evaluateAll((rows) => rows.map((row) => [row.cells[0].textContent, row.cells[1].textContent])));
}

/** The command line's answer on the same text. */
export function commandLine(text, verb = 'evaluate', args = []) {
    const folder = mkdtempSync(join(tmpdir(), 'fallwright-book-'));
    const file = join(folder, 'job.book.jsonl');
    writeFileSync(file, text);
    const program = process.env.FALLWRIGHT;
    assert.ok(program, 'FALLWRIGHT names the command line');
    return JSON.parse(execFileSync(program, [verb, file, ...args, '--json'], { encoding: 'utf8', maxBuffer: 1e9 }));
}

/** The three doors, each with its answer. */
export async function doors(page, address, hands) {
    const me = new Actor(page, hands);
    await page.goto(`${address}#/`);
    await me.press(page.locator('.door', { hasText: 'How much does it fall' }));
    for (const [label, text] of [['Staff at the near point', '1432'], ['Staff at the far point', '2118'], ['Distance between them', '54.88']]) await me.type(label, text);
    await page.locator('.huge', { hasText: '1 in 80' }).waitFor();
    await page.getByText('686 mm lower').waitFor();
    await me.press(page.getByRole('link', { name: /Back to the first screen/ }));
    await me.press(page.locator('.door', { hasText: 'What should the staff read' }));
    // 50.000 + 1.432 - (49.200 - 24/80) = 2.532
    for (const [label, text] of [['Level of the benchmark', '50'], ['Staff on the benchmark', '1432'], ['Level where the fall starts', '49.2'], ['Fall', '80'], ['How far along', '24']]) await me.type(label, text);
    await page.locator('.huge', { hasText: '2.532' }).waitFor();
    await me.press(page.getByRole('link', { name: /Back to the first screen/ }));
    await me.press(page.locator('.door', { hasText: 'Is it right' }));
    await me.type('Fall set on the laser', '80');
    for (const [side, mm] of [['On grade', ''], ['LOW', '3'], ['HIGH', '24']]) {
        await me.tap(side);
        for (const digit of mm) await me.tap(digit);
        await me.tap('Next');
    }
    await page.getByText('1 of 3 outside').waitFor();
    const before = await page.evaluate(() => location.hash);
    await me.tap('Keep as a job');
    await page.waitForFunction((was) => location.hash !== was, before);
    await page.locator('[data-place="check"]').getByText('24 mm high').waitFor();
}

/** The demo opens and is judged as the README says: 1 outside, 1 too close to call, 16 within. */
export async function demo(page, address, hands) {
    const me = new Actor(page, hands);
    await page.goto(`${address}#/`);
    await me.tap('Look at the demo');
    const place = page.locator('[data-place="check"]');
    await place.locator('.tally').waitFor();
    return (await place.locator('.tally').innerText()).replace(/\s+/g, ' ');
}
