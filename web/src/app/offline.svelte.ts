// The app's own copy on the device: being kept, kept, or gone; and a newer version that waits to be taken.

export type OfflineState = 'unsupported' | 'keeping' | 'kept' | 'again' | 'failed';

class Offline {
    state = $state<OfflineState>('keeping');
    newer = $state(false);
    online = $state(true);
    #waiting: ServiceWorker | null = null;

    async start() {
        this.online = navigator.onLine;
        addEventListener('online', () => (this.online = true));
        addEventListener('offline', () => (this.online = false));
        if (!('serviceWorker' in navigator)) {
            this.state = 'unsupported';
            return;
        }
        const had = remembered();
        // A browser that clears site data takes the worker with it: it is fetched again, and that is said.
        if (had && !(await navigator.serviceWorker.getRegistration())) this.state = 'again';
        let reloading = navigator.serviceWorker.controller === null;
        navigator.serviceWorker.addEventListener('controllerchange', () => {
            if (!reloading) location.reload();
            reloading = false;
        });
        try {
            const registration = await navigator.serviceWorker.register('./sw.js', { scope: './', updateViaCache: 'none' });
            registration.addEventListener('updatefound', () => this.#follow(registration));
            this.#follow(registration);
            await navigator.serviceWorker.ready;
            this.state = 'kept';
            remember();
        } catch {
            this.state = navigator.serviceWorker.controller ? 'kept' : 'failed';
        }
    }

    take() {
        this.#waiting?.postMessage('take over');
    }

    #follow(registration: ServiceWorkerRegistration) {
        if (registration.waiting && navigator.serviceWorker.controller) this.#found(registration.waiting);
        const installing = registration.installing;
        installing?.addEventListener('statechange', () => {
            if (installing.state === 'installed' && navigator.serviceWorker.controller) this.#found(installing);
        });
    }

    #found(worker: ServiceWorker) {
        this.#waiting = worker;
        this.newer = true;
    }
}

const KEY = 'fallwright-offline';
function remembered(): boolean {
    try {
        return localStorage.getItem(KEY) !== null;
    } catch {
        return false;
    }
}
function remember() {
    try {
        localStorage.setItem(KEY, '1');
    } catch {
        // Nothing to remember with; the copy is kept all the same.
    }
}

export const offline = new Offline();
