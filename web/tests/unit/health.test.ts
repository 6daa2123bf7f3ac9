import { expect, test } from 'vitest';
import { claimBook, type Claim } from '../../src/store/writer';
import { look, maySoonBeFull, stampAfter } from '../../src/store/health';

test('time never goes back in a book', () => {
    const now = new Date('2026-05-04T08:00:00Z');
    expect(stampAfter(null, now)).toEqual({ when: now, behind: 0 });
    expect(stampAfter('2026-05-04T08:59:00+01:00', now)).toEqual({ when: now, behind: 0 });
    expect(stampAfter('2026-05-04T10:00:00+01:00', now)).toEqual({ when: new Date('2026-05-04T09:00:00Z'), behind: 3_600_000 });
    expect(stampAfter('no time', now).behind).toBe(0);
});

test('a browser that says nothing about its store is taken for one that may clear it', async () => {
    expect(await look(undefined)).toEqual({ persisted: null, used: null, quota: null });
    const silent = { persisted: () => Promise.reject(new Error('no')) } as unknown as StorageManager;
    expect((await look(silent)).persisted).toBeNull();
    expect(maySoonBeFull({ persisted: true, used: 9e6, quota: 10e6 })).toBe(true);
    expect(maySoonBeFull({ persisted: true, used: 1e6, quota: 1e9 })).toBe(false);
});

// Web Locks as the specification has them, as far as one writer needs: exclusive, ifAvailable, steal.
function locks(): LockManager {
    let held: { reject(reason: Error): void } | null = null;
    return {
        request: (_name: string, options: LockOptions, work: (lock: unknown) => Promise<unknown>) => {
            if (held && options.ifAvailable) return Promise.resolve(work(null));
            held?.reject(new Error('stolen'));
            return new Promise((resolve, reject) => {
                const mine = { reject };
                held = mine;
                void Promise.resolve(work({})).then((value) => {
                    if (held === mine) held = null;
                    resolve(value);
                });
            });
        },
    } as unknown as LockManager;
}

test('one writer a book; taking over tells the other; letting go frees it', async () => {
    const manager = locks();
    const heard: Claim[] = [];
    const first = await claimBook('b', manager, (claim) => heard.push(claim));
    const second = await claimBook('b', manager, () => undefined);
    expect([first.claim, second.claim]).toEqual(['mine', 'elsewhere']);
    await second.takeOver();
    await Promise.resolve();
    expect([first.claim, second.claim]).toEqual(['elsewhere', 'mine']);
    expect(heard).toEqual(['mine', 'elsewhere']);
    second.release();
    await new Promise((resolve) => setTimeout(resolve));
    expect((await claimBook('b', manager, () => undefined)).claim).toBe('mine');
});

test('without Web Locks a book is unguarded, and that is said', async () => {
    expect((await claimBook('b', undefined, () => undefined)).claim).toBe('unguarded');
});
