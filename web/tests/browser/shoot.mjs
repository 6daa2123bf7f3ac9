// Screenshots of every screen, both sizes and both themes, into build/shots: for looking at, not a test.
import { mkdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { openBrowser, serveDist, step } from './browser.mjs';

const out = fileURLToPath(new URL('../../../build/shots/', import.meta.url));
mkdirSync(out, { recursive: true });
const { address, close } = await serveDist();
const only = process.argv[2] ?? '';
for (const [size, options] of Object.entries({ phone: { viewport: { width: 360, height: 740 }, hasTouch: true, deviceScaleFactor: 2 }, desk: { viewport: { width: 1280, height: 800 } } })) {
    for (const theme of ['sun', 'night']) {
        if (only && !`${size}-${theme}`.includes(only)) continue;
        const { context, page, end } = await openBrowser(options);
        page.on('pageerror', (error) => console.log('PAGE ERROR', error.message));
        page.on('console', (message) => ['error', 'warning'].includes(message.type()) && console.log('CONSOLE', message.text()));
        await context.addInitScript((chosen) => localStorage.setItem('fallwright-theme', JSON.stringify(chosen)), theme);
        const shot = async (name, fullPage = true) => {
            await page.waitForTimeout(250);
            await page.screenshot({ path: `${out}${name}-${size}-${theme}.png`, fullPage });
        };
        await page.goto(address);
        await page.getByText('Works without a network').waitFor();
        await shot('doors');
        await page.goto(`${address}#/fall`);
        await step.type(page, 'Staff at the near point', '1432');
        await step.type(page, 'Staff at the far point', '2118');
        await step.type(page, 'Distance between them', '54.88');
        await page.getByText('mm/m').waitFor();
        await shot('fall');
        await page.goto(`${address}#/staff`);
        for (const [label, text] of [['Level of the benchmark', '50'], ['Staff on the benchmark', '1432'], ['Level where the fall starts', '49.2'], ['Fall', '80'], ['How far along', '24']]) await step.type(page, label, text);
        await page.getByText('on the staff at').waitFor();
        await shot('staff');
        await page.goto(`${address}#/right`);
        await step.type(page, 'Fall set on the laser', '80');
        for (const [side, mm] of [['HIGH', '0'], ['LOW', '3'], ['HIGH', '14'], ['HIGH', '9']]) await step.receiver(page, side, mm);
        await page.getByText('of 4').first().waitFor();
        await shot('right');
        await page.goto(address);
        await page.getByRole('button', { name: 'Look at the demo' }).click();
        await page.getByText('outside', { exact: false }).first().waitFor();
        for (const place of ['Check', 'Prepare', 'Set up', 'Read', 'Hand over']) {
            await page.getByRole('link', { name: place, exact: true }).click();
            await page.waitForTimeout(800);
            await shot(`job-${place.toLowerCase().replace(' ', '-')}`, place !== 'Read');
        }
        await page.goto(`${address}#/device`);
        await shot('device');
        await page.goto(`${address}#/practice`);
        await page.waitForTimeout(500);
        await shot('practice');
        await page.goto(address);
        await shot('jobs');
        await end();
    }
}
await close();
