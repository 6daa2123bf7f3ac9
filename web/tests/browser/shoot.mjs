// Pictures of every screen, both sizes and both themes, into build/shots: for looking at, not a test.
//   node web/tests/browser/shoot.mjs [phone|desk]-[sun|night] [part of a screen's name]
import { mkdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { openBrowser, serveDist } from './browser.mjs';
import { SCREENS, SIZES, THEMES } from './screens.mjs';

const out = fileURLToPath(new URL('../../../build/shots/', import.meta.url));
mkdirSync(out, { recursive: true });
const { address, close } = await serveDist();
const [only = '', part = ''] = process.argv.slice(2);
for (const [size, options] of Object.entries(SIZES)) {
    for (const theme of THEMES) {
        if (!`${size}-${theme}`.includes(only)) continue;
        const { context, page, end } = await openBrowser(options);
        page.on('pageerror', (error) => console.log('PAGE ERROR', error.message));
        page.on('console', (message) => ['error', 'warning'].includes(message.type()) && console.log('CONSOLE', message.text()));
        await context.addInitScript((chosen) => {
            localStorage.setItem('fallwright-theme', JSON.stringify(chosen));
            localStorage.setItem('fallwright-practice-seed', '7');
        }, theme);
        await page.goto(address);
        await page.locator('[data-offline="kept"]').waitFor();
        for (const [name, go] of SCREENS) {
            await go(page, address);
            if (!name.includes(part)) continue;
            await page.waitForTimeout(250);
            await page.evaluate(() => scrollTo(0, 0));
            await page.screenshot({ path: `${out}${name}-${size}-${theme}.png`, fullPage: !/read/.test(name) });
        }
        await end();
    }
}
await close();
