// One writer per book: whoever holds the lock writes, every other window reads and follows.

export type Claim = 'mine' | 'elsewhere' | 'unguarded';

export interface Writer {
    readonly claim: Claim;
    /** Takes the book over from the other window, which then reads only */
    takeOver(): Promise<void>;
    release(): void;
}

/** Asks for the book; `changed` is told when another window takes it. */
export async function claimBook(id: string, locks: LockManager | undefined, changed: (claim: Claim) => void): Promise<Writer> {
    let release: (() => void) | null = null;
    let claim: Claim = 'unguarded';
    const set = (next: Claim) => {
        claim = next;
        changed(next);
    };
    const ask = (options: LockOptions) =>
        new Promise<void>((answered) => {
            locks!.request(`fallwright-book-${id}`, options, async (lock) => {
                if (lock === null) {
                    set('elsewhere');
                    return answered();
                }
                set('mine');
                answered();
                await new Promise<void>((done) => (release = done));
            }).catch(() => {
                // Taken over by another window.
                release = null;
                set('elsewhere');
                answered();
            });
        });
    if (locks) await ask({ ifAvailable: true });
    else set('unguarded');
    return {
        get claim() {
            return claim;
        },
        takeOver: () => (locks ? ask({ steal: true }) : Promise.resolve()),
        release: () => release?.(),
    };
}
