// Every screen in every state worth looking at, and how a person gets there. The looks tests walk through it, shoot.mjs
// takes pictures of it.
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { step } from './browser.mjs';

export const SIZES = {
    phone: { viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true, deviceScaleFactor: 2 },
    desk: { viewport: { width: 1280, height: 800 } },
};
export const THEMES = ['sun', 'night'];

const lines = (entries) => entries.map((each) => JSON.stringify(each)).join('\n') + '\n';
export const demo = readFileSync(fileURLToPath(new URL('../../../examples/lane.book.jsonl', import.meta.url)), 'utf8');

/** A job in feet with long names, HIGH and LOW off a clamped receiver. */
export const feet = lines([
    { kind: 'book', format: 'fallwright', version: 1, title: 'Upper Ploverscombe relief culvert and its outfall, phase two, night shift', unit: 'ft' },
    { kind: 'benchmark', point: 'Bolt in the kerb by the pump house', level: 164.235 },
    { kind: 'benchmark', point: 'TBM2', level: 161.98 },
    { kind: 'instrument', name: 'the big laser from the stores', type: 'rotating-laser' },
    { kind: 'line', name: 'Outfall', use: 'drain', profile: [{ ch: 0, level: 158.58 }, { ch: 100, gradient: '1 in 100 fall' }], pipes: [{ from: 0, to: 100, bore: 1 }] },
    { kind: 'tolerance', line: 'Outfall', what: 'laid', below: -0.03, above: 0.03 },
    { kind: 'setup', name: 'S1', instrument: 'the big laser from the stores', place: { line: 'Outfall', ch: 0, off: 3 }, plane: { main: '1 in 100 fall', cross: 0, towards: 'Outfall' }, clamp: 8.72 },
    { kind: 'reading', setup: 'S1', point: 'Bolt in the kerb by the pump house', staff: 2.871, along: 20, across: 6 },
    { kind: 'reading', setup: 'S1', line: 'Outfall', ch: 0, what: 'laid', low: 0.004 },
    { kind: 'reading', setup: 'S1', line: 'Outfall', ch: 20, what: 'laid', high: 0.021 },
    { kind: 'reading', setup: 'S1', line: 'Outfall', ch: 40, what: 'laid', high: 0.061 },
]);

/** A drain to lay, its laser level, a receiver that can be clamped. */
export const yard = lines([
    { kind: 'book', format: 'fallwright', version: 1, title: 'Cooper Yard', unit: 'm' },
    { kind: 'benchmark', point: 'BM1', level: 50 },
    { kind: 'instrument', name: 'laser', type: 'rotating-laser' },
    { kind: 'line', name: 'D1', use: 'drain', profile: [{ ch: 0, level: 49 }, { ch: 20, gradient: '1 in 80 fall' }], pipes: [{ from: 0, to: 20, bore: 0.15 }] },
    { kind: 'tolerance', line: 'D1', what: 'laid', below: -0.01, above: 0.01 },
    { kind: 'setup', name: 'S1', instrument: 'laser', place: { line: 'D1', ch: 0, off: 2 }, plane: { main: '1 in 80 fall', cross: 0, towards: 'D1' }, clamp: 2.4 },
    { kind: 'reading', setup: 'S1', point: 'BM1', staff: 1.4, along: 2, across: 3 },
]);

/** 2,000 readings along a drain. */
export function many(count = 2000) {
    const spacing = 0.5;
    return lines([
        { kind: 'book', format: 'fallwright', version: 1, title: 'Long Reach', unit: 'm' },
        { kind: 'benchmark', point: 'BM1', level: 20 },
        { kind: 'instrument', name: 'laser', type: 'rotating-laser' },
        { kind: 'line', name: 'L1', use: 'other', profile: [{ ch: 0, level: 19.2 }, { ch: count * spacing, gradient: '1 in 1000 fall' }] },
        { kind: 'tolerance', line: 'L1', what: 'finished', below: -0.015, above: 0.015 },
        { kind: 'setup', name: 'S1', instrument: 'laser' },
        { kind: 'reading', setup: 'S1', point: 'BM1', staff: 1.2, dist: 30 },
        ...Array.from({ length: count }, (_, i) => ({ kind: 'reading', setup: 'S1', line: 'L1', ch: i * spacing, what: 'finished', staff: Number((2 + (i * spacing) / 1000 + ((i * 7919) % 23 - 11) / 1000).toFixed(3)) })),
    ]);
}

async function at(page, address, hash) {
    await page.evaluate((to) => (location.hash = to), hash);
}
export async function openBook(page, name, text) {
    await page.evaluate(() => (location.hash = '#/'));
    await page.getByTestId('open-file').setInputFiles({ name: `${name}.book.jsonl`, mimeType: 'application/x-ndjson', buffer: Buffer.from(text) });
    await page.locator('[data-place="check"]').waitFor();
}
const place = (name) => async (page) => {
    await page.getByRole('link', { name, exact: true }).click();
    await page.locator(`main:not([hidden])[aria-label="${name}"]`).waitFor();
};
async function unfoldAll(page) {
    await page.locator('main:not([hidden]) details.card:not([open]) > summary').evaluateAll((all) => all.forEach((each) => each.click()));
}
const settled = (page) => page.waitForFunction(() => !document.querySelector('[data-kept]')?.textContent?.includes('…'));

/** [name, how to get there from the screen before it]; `page` stands on the app. */
export const SCREENS = [
    ['doors-first', async (page, address) => at(page, address, '#/')],
    ['fall-empty', async (page, address) => at(page, address, '#/fall')],
    ['fall', async (page) => {
        for (const [label, text] of [['Staff at the near point', '1432'], ['Staff at the far point', '2118'], ['Distance between them', '54.88']]) await step.type(page, label, text);
        await page.getByText('mm/m').waitFor();
    }],
    ['fall-wrong', async (page) => {
        await step.type(page, 'Distance between them', 'far');
        await page.getByText('No answer').waitFor();
        await step.type(page, 'Distance between them', '54.88');
        await step.type(page, 'Distance between them', 'far');
        await page.getByText('No answer').waitFor();
    }],
    ['staff', async (page, address) => {
        await at(page, address, '#/staff');
        for (const [label, text] of [['Level of the benchmark', '50'], ['Staff on the benchmark', '1432'], ['Level where the fall starts', '49.2'], ['Fall', '80'], ['How far along', '24']]) await step.type(page, label, text);
        await page.getByText('on the staff at').waitFor();
    }],
    ['right', async (page, address) => {
        await at(page, address, '#/right');
        await step.type(page, 'Fall set on the laser', '80');
        await page.getByRole('button', { name: 'On grade' }).click();
        await page.getByRole('button', { name: 'Next' }).click();
        for (const [side, mm] of [['LOW', '3'], ['HIGH', '14'], ['HIGH', '9']]) await step.receiver(page, side, mm);
        await page.getByText('of 4').first().waitFor();
    }],
    ['practice', async (page, address) => {
        await at(page, address, '#/practice');
        await page.locator('.face svg').waitFor();
    }],
    ['practice-told', async (page) => {
        for (const digit of '490') await page.getByRole('button', { name: digit, exact: true }).click();
        await page.getByRole('button', { name: 'Check' }).click();
        await page.locator('[data-grade]').waitFor();
    }],
    ['practice-all', async (page) => {
        await page.getByLabel('How hard').selectOption('all');
        await page.locator('.face svg').waitFor();
    }],
    ['practice-receiver', async (page) => {
        await page.getByLabel('How hard').selectOption('receiver');
        await page.locator('.receiver').waitFor();
    }],
    ['device', async (page, address) => at(page, address, '#/device')],
    ['new-prepare', async (page, address) => {
        await at(page, address, '#/');
        await page.getByRole('button', { name: 'New job' }).click();
        await page.locator('[data-place="prepare"]').waitFor();
        await unfoldAll(page);
    }],
    ['new-setup', place('Set up')],
    ['new-read', place('Read')],
    ['new-check', place('Check')],
    ['new-hand-over', place('Hand over')],
    ['demo-check', async (page) => {
        await openBook(page, 'lane', demo);
        await page.locator('.tally').waitFor();
        await settled(page);
    }],
    ['demo-prepare', place('Prepare')],
    ['demo-prepare-open', unfoldAll],
    ['demo-setup', async (page) => {
        await place('Set up')(page);
        await settled(page);
    }],
    ['demo-read', async (page) => {
        await place('Read')(page);
        await settled(page);
    }],
    ['demo-read-where', async (page) => page.locator('.now').click()],
    ['demo-read-drawn', async (page) => {
        await page.locator('.now').click();
        await page.getByRole('button', { name: 'Drawn staff' }).click();
        await page.getByRole('slider').waitFor();
    }],
    ['demo-read-doubt', async (page) => {
        await page.getByRole('button', { name: 'Keys' }).click();
        for (const digit of '12345') await page.getByRole('button', { name: digit, exact: true }).click();
        await page.getByRole('button', { name: 'Keep' }).click();
        await page.getByRole('alertdialog').waitFor();
    }],
    ['demo-hand-over', place('Hand over')],
    ['feet-check', async (page) => {
        await openBook(page, 'feet', feet);
        await page.locator('.tally').waitFor();
        await settled(page);
    }],
    ['feet-setup', place('Set up')],
    ['feet-clamped', async (page) => {
        await place('Read')(page);
        await page.getByLabel('Clamped', { exact: true }).check({ force: true });
        await page.locator('main:not([hidden])').getByRole('button', { name: 'HIGH', exact: true }).click();
        await settled(page);
    }],
    ['doors', async (page, address) => {
        await at(page, address, '#/');
        await page.locator('.jobs').waitFor();
    }],
];
