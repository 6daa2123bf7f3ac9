import { svelte } from '@sveltejs/vite-plugin-svelte';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const from = (path: string) => fileURLToPath(new URL(path, import.meta.url));

export default defineConfig({
    plugins: [svelte()],
    base: './',
    resolve: {
        alias: [
            { find: '$api', replacement: from('../api/types/fallwright.ts') },
            { find: '$loader', replacement: from('../shells/wasm/loader.mjs') },
            { find: /^\$core/, replacement: from('../build/wasm/shells/wasm/fallwright.wasm') },
        ],
    },
    build: { target: 'es2022', outDir: from('../dist'), emptyOutDir: true, assetsInlineLimit: 0, modulePreload: { polyfill: false } },
    worker: { format: 'es' },
    test: { include: ['tests/unit/**/*.test.ts'], environment: 'node' },
});
