// A person at the screen: with a thumb, or with a keyboard only. Both do the same by the words they see.

export class Actor {
    taps = 0;
    constructor(page, hands) {
        this.page = page;
        this.hands = hands;
    }

    button(name, within = this.page) {
        return within.getByRole('button', { name, exact: typeof name === 'string' });
    }

    /** Presses whatever the locator finds. */
    async press(locator) {
        this.taps += 1;
        if (this.hands === 'thumb') return locator.tap();
        await locator.focus();
        await this.page.keyboard.press('Enter');
    }

    async tap(name, within) {
        await this.press(this.button(name, within));
    }

    async go(link) {
        await this.press(this.page.getByRole('link', { name: link, exact: true }));
    }

    /** One of a few that are in sight. */
    async choose(name, within = this.page) {
        const radio = within.getByRole('radio', { name, exact: true });
        this.taps += 1;
        if (this.hands === 'thumb') return radio.locator('xpath=..').tap();
        await radio.focus();
        await this.page.keyboard.press('Space');
    }

    async type(label, text, within = this.page) {
        const field = within.getByLabel(label, { exact: true });
        if (this.hands === 'thumb') return field.fill(text);
        await field.focus();
        await this.page.keyboard.press('Control+A');
        await this.page.keyboard.type(text);
    }

    async pick(label, option, within = this.page) {
        await within.getByLabel(label, { exact: true }).selectOption(option);
    }

    /** Opens a part that may be folded away. */
    async unfold(title) {
        const details = this.page.locator('main:not([hidden]) details', { has: this.page.getByRole('heading', { name: title, exact: true }) }).first();
        if ((await details.getAttribute('open')) === null) await this.press(details.locator('summary').first());
        return details;
    }

    /** Figures at the keypad, or on the keyboard. */
    async figures(digits) {
        for (const digit of digits) {
            this.taps += 1;
            if (this.hands === 'thumb') await this.button(digit === '.' ? 'Point' : digit).tap();
            else await this.page.keyboard.press(digit);
        }
    }

    async receiver(side, digits) {
        this.taps += side === 'On grade' ? 1 : 1;
        if (this.hands === 'thumb') await this.button(side).tap();
        else await this.page.keyboard.press({ HIGH: 'h', LOW: 'l', 'On grade': 'g' }[side]);
        await this.figures(digits);
    }

    async keep() {
        this.taps += 1;
        if (this.hands === 'thumb') await this.button('Keep').tap();
        else await this.page.keyboard.press('Enter');
    }

    /** Waits until the head of the job says that so many entries are on the disk. */
    async kept(count) {
        await this.page.locator(`[data-kept="${count}"]`).waitFor();
    }

    async count() {
        return Number(await this.page.locator('[data-kept]').getAttribute('data-kept'));
    }
}
