// How long a person waits: from a key to its result in the field app with 2,000 readings in the book, beside the core's own
// evaluation of the same book in the same browser. Prints the ratio of the medians and its goal; exit 1 when it is missed.
//   node bench/key_to_result.mjs      the app must have been built: ./run app --build
import { readdirSync, readFileSync } from 'node:fs';
import { Actor } from '../web/tests/browser/actor.mjs';
import { dist, openBrowser, serveDist } from '../web/tests/browser/browser.mjs';
import { many } from '../web/tests/browser/screens.mjs';
import { firstVisit, THUMB } from '../web/tests/browser/scenes.mjs';

const GOAL = 1.5;
const KEYS = 12;
const READINGS = 2000;
const WARM = 6; // evaluations before the first is timed, or the browser has not compiled the module well yet
const SETTLED = 400; // milliseconds after which nothing of the last key is under way any more
const median = (all) => all.toSorted((a, b) => a - b)[Math.floor(all.length / 2)];

/** In the page: a core of its own in a worker of the app's; milliseconds from a book to its evaluation. */
async function startCore({ worker, module }) {
    const core = new Worker(worker, { type: 'module' });
    const next = () => new Promise((done, failed) => {
        core.onmessage = ({ data }) => done(data);
        core.onerror = failed;
    });
    core.postMessage({ start: await WebAssembly.compileStreaming(fetch(module)) });
    if (!(await next()).ready) throw new Error('the core did not start');
    window.evaluation = async (book) => {
        const begin = performance.now();
        core.postMessage({ id: 1, verb: 'evaluate', options: {}, book });
        const { answer } = await next();
        if (!answer?.includes('"levels"')) throw new Error('no evaluation came back');
        return performance.now() - begin;
    };
}

/** In the page: the milliseconds from the next key to a huge figure that is another than before, and that figure. */
function watchAnswer() {
    window.waited = new Promise((done) => {
        const said = () => document.querySelector('.answer .huge')?.textContent.trim() ?? '';
        const before = said();
        addEventListener('keydown', (key) => {
            const watch = new MutationObserver(() => {
                if (said() === before || said() === '') return;
                watch.disconnect();
                done({ took: performance.now() - key.timeStamp, text: said() });
            });
            watch.observe(document.querySelector('.answer'), { subtree: true, childList: true, characterData: true });
        }, { once: true, capture: true });
    });
}

async function keyTimes(page, book) {
    const keys = [], alone = [];
    // What the app asks about: the book with the reading that is being keyed; another one each time, or the worker would know
    // the text again.
    const withReading = (mm) => `${book}${JSON.stringify({ kind: 'reading', setup: 'S1', line: 'L1', ch: 0, what: 'finished', staff: mm / 1000 })}\n`;
    const evaluation = (mm) => page.evaluate((text) => window.evaluation(text), withReading(mm));
    for (let i = 0; i < WARM; i += 1) await evaluation(i % 2 === 0 ? 3020 + i : 302);
    for (let i = 0; i < KEYS; i += 1) {
        await page.evaluate(watchAnswer);
        await page.keyboard.press(i % 2 === 0 ? String(1 + (i % 9)) : 'Backspace');
        const { took, text } = await page.evaluate(() => window.waited);
        keys.push(took);
        await page.waitForTimeout(SETTLED);
        if ((await page.locator('.answer .huge').innerText()).trim() !== text) throw new Error(`"${text}" was not the result yet`);
        alone.push(await evaluation(i % 2 === 0 ? 3010 + i : 301));
    }
    return { keys, alone };
}

const asset = (pattern) => `./assets/${readdirSync(`${dist}/assets`).find((name) => pattern.test(name))}`;
const { address, close } = await serveDist();
const { page, end } = await openBrowser(THUMB);
try {
    const book = many(READINGS);
    await firstVisit(page, address);
    await page.evaluate(startCore, { worker: asset(/^engine\.worker.*js$/), module: asset(/\.wasm$/) });
    await page.getByTestId('open-file').setInputFiles({ name: 'long.book.jsonl', mimeType: 'application/x-ndjson', buffer: Buffer.from(book) });
    await page.locator('[data-kept][aria-busy="false"]').waitFor();
    const me = new Actor(page, 'thumb');
    await me.go('Read');
    await me.press(page.locator('.now'));
    await me.pick('Along', 'L1');
    await me.press(page.locator('.now'));
    await page.evaluate(() => document.activeElement?.blur());
    for (const digit of '301') await page.keyboard.press(digit);
    await page.locator('.answer .huge', { hasText: /high|low/ }).waitFor();
    const { keys, alone } = await keyTimes(page, book);
    const ratio = median(keys) / median(alone);
    console.log(`${READINGS} readings in the field app: key to result ${median(keys).toFixed(0)} ms, the core alone ${median(alone).toFixed(0)} ms`);
    console.log(`key to result / the core's evaluation ${ratio.toFixed(3)} ${GOAL.toFixed(3)} ${ratio <= GOAL ? 'met' : 'MISSED'}`);
    process.exitCode = ratio <= GOAL ? 0 : 1;
} finally {
    await end();
    await close();
}
