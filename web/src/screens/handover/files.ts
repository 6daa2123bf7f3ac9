// Files in and out by what the browser has: a download, the share sheet.

/** "Back lane, drain" becomes back-lane-drain.book.jsonl. */
export function fileName(title: string, ending: string): string {
    const plain = title.normalize('NFKD').replace(/[\u0300-\u036f]/g, '').toLowerCase().replace(/[^a-z0-9]+/g, '-').replace(/^-|-$/g, '');
    return `${plain.slice(0, 60) || 'job'}.${ending}`;
}

export function saveFile(name: string, content: string | Uint8Array, type: string) {
    const address = URL.createObjectURL(new Blob([content as BlobPart], { type }));
    const link = document.createElement('a');
    link.href = address;
    link.download = name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

export function canShare(): boolean {
    return typeof navigator.canShare === 'function' && navigator.canShare({ files: [new File([''], 'a.txt', { type: 'text/plain' })] });
}

/** Whether it went out; false where the person changed their mind. */
export async function shareFile(name: string, content: string, type: string): Promise<boolean> {
    // Share sheets take a few kinds of file only; a book is text.
    const wanted = new File([content], name, { type });
    const file = navigator.canShare({ files: [wanted] }) ? wanted : new File([content], `${name}.txt`, { type: 'text/plain' });
    try {
        await navigator.share({ files: [file], title: name });
        return true;
    } catch {
        return false;
    }
}
