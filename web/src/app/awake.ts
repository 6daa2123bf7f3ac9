// The screen stays on while readings are taken, where the browser can do that; asked anew when the window comes back.

export function keepAwake(): () => void {
    let lock: WakeLockSentinel | null = null;
    let over = false;
    async function ask() {
        if (over || document.visibilityState !== 'visible' || !('wakeLock' in navigator)) return;
        try {
            lock = await navigator.wakeLock.request('screen');
            if (over) void lock.release();
        } catch {
            // A low battery or a setting forbids it; nothing depends on it.
        }
    }
    document.addEventListener('visibilitychange', ask);
    void ask();
    return () => {
        over = true;
        document.removeEventListener('visibilitychange', ask);
        void lock?.release();
    };
}
