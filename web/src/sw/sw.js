// Keeps the whole app on the device: everything is fetched once, served from there ever after, and replaced as a whole
// when the person takes a newer version. tools/precache.mjs fills in the two names.
const VERSION = '__VERSION__';
const FILES = JSON.parse('__FILES__');
const CACHE = `fallwright-${VERSION}`;

self.addEventListener('install', (event) => {
    event.waitUntil(
        caches.open(CACHE).then((cache) => cache.addAll(FILES.map((file) => new Request(file, { cache: 'no-cache' })))),
    );
});

self.addEventListener('activate', (event) => {
    event.waitUntil(
        caches
            .keys()
            .then((names) => Promise.all(names.filter((each) => each.startsWith('fallwright-') && each !== CACHE).map((each) => caches.delete(each))))
            .then(() => self.clients.claim()),
    );
});

self.addEventListener('message', (event) => {
    if (event.data === 'take over') self.skipWaiting();
});

self.addEventListener('fetch', (event) => {
    const { request } = event;
    if (request.method !== 'GET' || new URL(request.url).origin !== self.location.origin) return;
    const key = request.mode === 'navigate' ? './' : request;
    event.respondWith(
        caches.open(CACHE).then((cache) => cache.match(key, { ignoreSearch: true })).then((kept) => kept ?? fetch(request)),
    );
});
