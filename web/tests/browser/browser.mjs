// A browser for the tests: Debian's Chromium with a profile of its own, and the built app on loopback.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';
import { serve } from '../../server.mjs';

export const dist = fileURLToPath(new URL('../../../dist', import.meta.url));
const FLAGS = ['--headless', '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'];

/** A browser of its own; `profile` keeps it between two starts. */
export async function openBrowser(options = {}, profile = null) {
    const folder = profile ?? mkdtempSync(join(tmpdir(), 'fallwright-browser-'));
    const context = await chromium.launchPersistentContext(folder, { executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium', ...options, args: [...FLAGS, ...(options.args ?? [])] });
    context.setDefaultTimeout(20_000);
    const page = context.pages()[0] ?? (await context.newPage());
    return {
        context, page, folder,
        async end() {
            await context.close().catch(() => undefined);
            if (profile === null) rmSync(folder, { recursive: true, force: true });
        },
    };
}

export async function serveDist(port = 0) {
    const { server, address } = await serve(dist, port);
    return {
        address,
        close: () => new Promise((resolve) => {
            server.closeAllConnections();
            server.close(resolve);
        }),
    };
}

/** What a person does, by the words they see. */
export const step = {
    type: (page, label, text) => page.getByLabel(label, { exact: true }).fill(text),
    async receiver(page, side, figure) {
        await page.getByRole('button', { name: side, exact: true }).click();
        for (const digit of figure) await page.getByRole('button', { name: digit, exact: true }).click();
        await page.getByRole('button', { name: /^(Next|Keep)$/ }).click();
    },
};
