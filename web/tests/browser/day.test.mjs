// A whole day on a new job, the three doors and the demo: with a thumb on a phone and with a keyboard on a desk; then all
// of it once more with the server gone. What the screen shows is what the command line says of the saved book.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import test from 'node:test';
import { openBrowser, serveDist } from './browser.mjs';
import { commandLine, day, demo, DESK, doors, firstVisit, levelsOnScreen, THUMB } from './scenes.mjs';

function asShown(level) {
    return level === null ? '\u2013' : level.toFixed(3).replace('-', '\u2212');
}

for (const [hands, size] of [['thumb', THUMB], ['keyboard', DESK]]) {
    test(`with a ${hands}, with and without a server`, { timeout: 240_000 }, async (t) => {
        const { page, end } = await openBrowser({ ...size, acceptDownloads: true });
        const wrong = [];
        page.on('pageerror', (error) => wrong.push(error.message));
        page.on('console', (message) => message.type() === 'error' && wrong.push(message.text()));
        const server = await serveDist();
        try {
            await firstVisit(page, server.address);
            for (const network of ['online', 'offline']) {
                if (network === 'offline') {
                    await server.close();
                    await page.reload();
                }
                await t.test(`${network}: the three doors`, () => doors(page, server.address, hands));
                await t.test(`${network}: a day, and the command line agrees`, async () => {
                    const text = await day(page, server.address, hands);
                    const said = commandLine(text);
                    const shown = await levelsOnScreen(page);
                    assert.deepEqual(shown, Object.fromEntries(said.levels.map((each) => [each.point, asShown(each.level)])));
                    assert.equal(said.levels.length, 7);
                    assert.equal(said.lines[0].stations.filter((each) => each.verdict === 'outside').length, 1);
                });
                await t.test(`${network}: the demo`, async () => {
                    const tally = await demo(page, server.address, hands);
                    const book = readFileSync(fileURLToPath(new URL('../../../examples/lane.book.jsonl', import.meta.url)), 'utf8');
                    const stations = commandLine(book, 'check').lines.flatMap((line) => line.stations);
                    const count = (verdict) => stations.filter((each) => each.verdict === verdict).length;
                    assert.ok(count('within') > 0);
                    assert.equal(tally, `${count('outside')} outside ${count('undecided')} too close to call ${count('within')} inside`);
                });
            }
            assert.deepEqual(wrong, []);
        } finally {
            await end();
            await server.close().catch(() => undefined);
        }
    });
}
