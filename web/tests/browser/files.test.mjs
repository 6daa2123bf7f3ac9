// Files in and out: opened, refused, dropped, joined; and what leaves the browser at all.
import assert from 'node:assert/strict';
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import test, { after, before } from 'node:test';
import { Actor } from './actor.mjs';
import { openBrowser, serveDist } from './browser.mjs';
import { commandLine, DESK, demo, doors, firstVisit, levelsOnScreen, THUMB } from './scenes.mjs';

const example = (name) => readFileSync(fileURLToPath(new URL(`../../../examples/${name}.book.jsonl`, import.meta.url)), 'utf8');
const file = (content, name = 'job.book.jsonl') => ({ name, mimeType: 'application/x-ndjson', buffer: Buffer.from(content) });
let server;
before(async () => (server = await serveDist()));
after(() => server.close());

async function withBrowser(work, options = DESK) {
    const browser = await openBrowser({ ...options, acceptDownloads: true });
    try {
        await work(browser.page, browser);
    } finally {
        await browser.end();
    }
}

test('an opened file gives the levels of the command line, in feet too, and comes back byte by byte', { timeout: 120_000 }, () => withBrowser(async (page) => {
    for (const name of ['two-benchmarks', 'feet', 'several-days']) {
        const text = example(name);
        await page.goto(`${server.address}#/`);
        await page.getByTestId('open-file').setInputFiles(file(text));
        await page.locator('[data-kept]').waitFor();
        const shown = await levelsOnScreen(page);
        const said = commandLine(text).levels;
        assert.ok(said.length > 2);
        assert.deepEqual(shown, Object.fromEntries(said.map((each) => [each.point, each.level === null ? '\u2013' : each.level.toFixed(3).replace('-', '\u2212')])), name);
        await page.getByRole('link', { name: 'Hand over' }).click();
        const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Save the job' }).click()]);
        let back = '';
        for await (const part of await download.createReadStream()) back += part;
        assert.equal(back, text);
    }
}));

test('what is no book is refused with a reason, and nothing is kept of it', () => withBrowser(async (page) => {
    await page.goto(server.address);
    for (const [what, content] of [['empty', ''], ['a picture', '\x89PNG\r\n\x1a\n\0\0'], ['words', 'Dear all,\nthe levels are attached.'], ['another version', '{"kind":"book","format":"fallwright","version":99}\n'], ['an array', '[1,2,3]']]) {
        await page.getByTestId('open-file').setInputFiles(file(content));
        await page.locator('.notice[role="alert"]').waitFor({ timeout: 10_000 }).catch(() => assert.fail(`${what}: nothing was said`));
        assert.match(await page.locator('.notice[role="alert"]').innerText(), /[a-z]{3}/, what);
        await page.getByRole('button', { name: 'Seen' }).click();
    }
    await page.getByText('No job is kept on this device yet').waitFor();
}));

test('a torn line is passed over and said; the rest counts', () => withBrowser(async (page) => {
    const text = example('two-benchmarks').trimEnd() + '\n{"kind":"reading","setup":"S1","poi';
    await page.goto(server.address);
    await page.getByTestId('open-file').setInputFiles(file(text));
    const part = page.locator('[data-place="check"] details', { has: page.getByRole('heading', { name: 'What was noticed', exact: true }) });
    await part.waitFor();
    if ((await part.getAttribute('open')) === null) await part.locator('summary').click();
    await part.getByText('the line is torn').first().waitFor();
    assert.deepEqual(Object.keys(await levelsOnScreen(page)).length, commandLine(text).levels.length);
}));

test('levels go out as CSV and LandXML, the bytes of the command line; what cannot be written says why', () => withBrowser(async (page) => {
    const text = example('lane');
    await page.goto(server.address);
    await page.getByTestId('open-file').setInputFiles(file(text));
    await page.getByRole('link', { name: 'Hand over' }).click();
    const part = page.getByRole('region', { name: 'For other programs' });
    for (const [label, as] of [['CSV, levels', 'csv'], ['LandXML', 'landxml']]) {
        await part.getByText(label, { exact: true }).click();
        const [download] = await Promise.all([page.waitForEvent('download'), part.getByRole('button', { name: 'Save that file' }).click()]);
        const wanted = commandLine(text, 'export', ['--as', as]);
        assert.equal(download.suggestedFilename(), wanted.name);
        assert.equal(readFileSync(await download.path(), 'utf8'), wanted.text);
    }
    await part.getByText('GeoJSON', { exact: true }).click();
    await part.getByRole('button', { name: 'Save that file' }).click();
    await part.getByText('Not written:').waitFor();
    assert.match(await part.getByRole('status').innerText(), /add a rule named projection/);
}));

test('with a projection in the book the levels go out as GeoJSON too, the bytes of the command line', () => withBrowser(async (page) => {
    const projection = { kind: 'rule', name: 'projection', values: { ellipsoid: 'grs-80', latitude: 0, longitude: 9, scale: 0.9996, false_east: 500000 } };
    const text = `${example('lane')}${JSON.stringify(projection)}\n`;
    await page.goto(server.address);
    await page.getByTestId('open-file').setInputFiles(file(text));
    await page.getByRole('link', { name: 'Hand over' }).click();
    const part = page.getByRole('region', { name: 'For other programs' });
    await part.getByText('GeoJSON', { exact: true }).click();
    const [download] = await Promise.all([page.waitForEvent('download'), part.getByRole('button', { name: 'Save that file' }).click()]);
    const wanted = commandLine(text, 'export', ['--as', 'geojson']);
    assert.equal(download.suggestedFilename(), wanted.name);
    const saved = readFileSync(await download.path(), 'utf8');
    assert.equal(saved, wanted.text);
    assert.ok(JSON.parse(saved).features.length > 10);
}));

test('the record in the app is that of the command line, with the fingerprint of the book', () => withBrowser(async (page) => {
    const text = example('knocked');
    await page.goto(server.address);
    await page.getByTestId('open-file').setInputFiles(file(text));
    await page.getByRole('link', { name: 'Hand over' }).click();
    const sheet = page.locator('.sheet');
    await sheet.getByText(createHash('sha256').update(text).digest('hex')).first().waitFor();
    const shown = await sheet.locator('h2').allInnerTexts();
    const wanted = [...commandLine(text, 'report').html.matchAll(/<h2[^>]*>([^<]*)<\/h2>/g)].map(([, words]) => words);
    assert.deepEqual(shown, wanted);
    await page.getByText('One sheet', { exact: true }).click();
    await page.waitForFunction((count) => document.querySelector('.sheet').shadowRoot.querySelectorAll('h2').length < count, wanted.length);
    assert.equal(new URL(page.url()).hash.includes('hand'), true);
}));

test('two crews become one book by id; a contradiction is shown and nothing joined', () => withBrowser(async (page) => {
    const text = example('lane');
    const lines = text.trimEnd().split('\n');
    const half = Math.ceil(lines.length / 2);
    await page.goto(server.address);
    await page.getByTestId('open-file').setInputFiles(file(lines.slice(0, half).join('\n')));
    await page.locator(`[data-kept="${half}"]`).waitFor();
    await page.getByRole('link', { name: 'Hand over' }).click();
    const bad = lines.slice(0, half).map((line, i) => (i === 14 ? line.replace('"mark": 1.4', '"mark": 1.5') : line));
    assert.notEqual(bad[14], lines[14]);
    await page.getByTestId('join-file').setInputFiles(file(bad.join('\n')));
    await page.getByText('contradicts this book').waitFor();
    assert.equal(await page.getByRole('button', { name: 'Join them' }).count(), 0);
    await page.getByRole('button', { name: 'Leave it' }).click();
    await page.getByTestId('join-file').setInputFiles(file(text));
    await page.getByText(`${lines.length - half} new entries, ${half - 1} that are here already`).waitFor();
    await page.getByRole('button', { name: 'Join them' }).click();
    await page.locator(`[data-kept="${lines.length}"]`).waitFor();
    assert.deepEqual(await levelsOnScreen(page), Object.fromEntries(commandLine(text).levels.map((each) => [each.point, each.level === null ? '\u2013' : each.level.toFixed(3)])));
}));

test('after the first visit nothing is asked of any network, and the policy lets nothing in', { timeout: 90_000 }, () => withBrowser(async (page) => {
    const response = await page.goto(server.address);
    const policy = response.headers()['content-security-policy'];
    assert.match(policy, /default-src 'none'/);
    assert.match(policy, /script-src 'self' 'wasm-unsafe-eval'(;|$)/);
    assert.doesNotMatch(policy, /unsafe-inline|unsafe-eval'(?<!wasm-unsafe-eval')|https?:/);
    await firstVisit(page, server.address);
    const violations = [];
    page.on('console', (message) => /Content Security Policy/.test(message.text()) && violations.push(message.text()));
    const asked = [];
    page.context().on('request', (request) => {
        if (!/^(data|blob):/.test(request.url())) asked.push(request);
    });
    await page.reload();
    await doors(page, server.address, 'thumb').catch(() => undefined);
    await demo(page, server.address, 'keyboard');
    const answers = await Promise.all(asked.map(async (request) => [request.url(), (await request.response())?.fromServiceWorker() ?? false]));
    // The browser itself looks whether the worker is still the newest; everything else comes from the device.
    assert.deepEqual(answers.filter(([url, kept]) => !kept && !url.endsWith('/sw.js')), []);
    assert.ok(answers.length > 3);
    assert.deepEqual(violations, []);
}, { ...THUMB }));

test('the reading that decides is one tap away, with its station set', () => withBrowser(async (page) => {
    const me = new Actor(page, 'thumb');
    await page.goto(server.address);
    await page.getByTestId('open-file').setInputFiles(file(example('knocked')));
    const suspects = commandLine(example('knocked'), 'suspects').suspects;
    const by = suspects[0].settle_by;
    await me.tap(new RegExp(`^Read ${by.point}`));
    await page.locator('[data-place="read"]:not([hidden]) .now', { hasText: by.point }).waitFor();
    assert.equal(me.taps, 1);
}, THUMB));
