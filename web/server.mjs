// Serves dist/ on loopback with the headers it is meant to have, and prints the address. No framework: files and headers.
import { createReadStream, statSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';

const TYPES = {
    '.html': 'text/html; charset=utf-8', '.js': 'text/javascript; charset=utf-8', '.css': 'text/css; charset=utf-8',
    '.wasm': 'application/wasm', '.svg': 'image/svg+xml', '.png': 'image/png', '.jsonl': 'application/x-ndjson; charset=utf-8',
    '.webmanifest': 'application/manifest+json',
};

// Nothing from elsewhere, no inline script, no eval but WebAssembly's own compiling.
export const POLICY = [
    "default-src 'none'", "script-src 'self' 'wasm-unsafe-eval'", "style-src 'self'", "img-src 'self' blob: data:",
    "connect-src 'self'", "worker-src 'self'", "manifest-src 'self'", "base-uri 'none'", "form-action 'none'", "frame-ancestors 'none'",
].join('; ');

export function serve(folder, port = 0) {
    const server = createServer((request, response) => {
        const path = decodeURIComponent(new URL(request.url, 'http://localhost').pathname);
        const name = path.endsWith('/') ? `${path}index.html` : path;
        const file = join(folder, normalize(name).replace(/^(\.\.[/\\])+/, ''));
        let size;
        try {
            size = statSync(file).size;
        } catch {
            response.writeHead(404, { 'content-type': 'text/plain' }).end('not here');
            return;
        }
        response.writeHead(200, {
            'content-type': TYPES[extname(file)] ?? 'application/octet-stream', 'content-length': size,
            'content-security-policy': POLICY, 'x-content-type-options': 'nosniff', 'referrer-policy': 'no-referrer',
            'cross-origin-opener-policy': 'same-origin', 'cache-control': file.includes('/assets/') ? 'max-age=31536000, immutable' : 'no-cache',
        });
        createReadStream(file).pipe(response);
    });
    return new Promise((resolve) => server.listen(port, '127.0.0.1', () => resolve({ server, address: `http://127.0.0.1:${server.address().port}/` })));
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
    const { address } = await serve(fileURLToPath(new URL('../dist', import.meta.url)), Number(process.argv[2] ?? 0));
    console.log(`Fallwright is at ${address}\nEnd it with Ctrl-C.`);
}
