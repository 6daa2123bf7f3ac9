// The record for a part of the page: its style sheet constructed, since the policy allows none inline (and would report
// one already when the text is parsed), its body in a shadow tree, so that neither styles the other.

/** What the record's file is made of: its style sheets' text, and the rest without them. */
export function parted(html: string): { styles: string; rest: string } {
    const styles: string[] = [];
    const rest = html.replace(/<style[^>]*>([\s\S]*?)<\/style>/g, (_, text: string) => (styles.push(text), ''));
    return { styles: styles.join('\n'), rest };
}

/** The sheet's rules for the whole page hold for the part instead. */
export function rulesOfPart(styles: string): string {
    return styles.replace(/(^|[\s,{}])(?:html|body|:root)(?=[\s,{])/g, '$1:host').replace(/(^|[\s,{}])main(?=[\s,{])/g, '$1.record');
}

/** Shows the record below `host`, whose own landmark holds it. */
export function showRecord(host: HTMLElement, html: string) {
    const root = host.shadowRoot ?? openPart(host);
    const { styles, rest } = parted(html);
    const rules = new CSSStyleSheet();
    rules.replaceSync(rulesOfPart(styles));
    root.adoptedStyleSheets = [rules];
    const parsed = new DOMParser().parseFromString(rest, 'text/html');
    const record = document.createElement('div');
    record.className = 'record';
    record.append(...(parsed.querySelector('main') ?? parsed.body).childNodes);
    root.replaceChildren(record);
}

// Its table of contents leads to chapters of the part; the page's address is that of the screen.
function openPart(host: HTMLElement): ShadowRoot {
    const root = host.attachShadow({ mode: 'open' });
    root.addEventListener('click', (event) => {
        const link = (event.target as Element | null)?.closest('a[href^="#"]');
        if (!link) return;
        event.preventDefault();
        root.getElementById(link.getAttribute('href')!.slice(1))?.scrollIntoView();
    });
    return root;
}

/** SHA-256 of a text's bytes; undefined where the browser computes none (no secure context). */
export async function fingerprint(text: string): Promise<string | undefined> {
    if (!globalThis.crypto?.subtle) return undefined;
    const digest = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text));
    return [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}
