// How safe books are on this device: whether the browser may clear them, how much room is left, whether the app itself
// is kept for use without a network.

export interface Health {
    /** null: the browser does not say */
    persisted: boolean | null;
    used: number | null;
    quota: number | null;
}

/** Under so much room left a person is warned: a book of a day is far under one megabyte. */
export const LITTLE_ROOM = 5_000_000;

export async function look(storage: StorageManager | undefined): Promise<Health> {
    const health: Health = { persisted: null, used: null, quota: null };
    if (!storage) return health;
    try {
        health.persisted = await storage.persisted();
        const { usage, quota } = await storage.estimate();
        health.used = usage ?? null;
        health.quota = quota ?? null;
    } catch {
        // A browser that refuses to say is shown as one that may clear its books.
    }
    return health;
}

export async function askToPersist(storage: StorageManager | undefined): Promise<boolean> {
    try {
        return (await storage?.persist()) ?? false;
    } catch {
        return false;
    }
}

/** Private windows have a small quota and forget everything: no browser says so, the size gives it away. */
export function maySoonBeFull(health: Health): boolean {
    return health.quota !== null && health.used !== null && health.quota - health.used < LITTLE_ROOM;
}

/** The device's clock against the last entry: entries must not go back in time, the core sorts by it. */
export function stampAfter(last: string | null, now: Date): { when: Date; behind: number } {
    const before = last === null ? NaN : Date.parse(last);
    const behind = Number.isNaN(before) ? 0 : before - now.getTime();
    return behind > 1000 ? { when: new Date(before), behind } : { when: now, behind: 0 };
}
