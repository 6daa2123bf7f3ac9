// Measured in the page itself: each function stands alone, because it is sent into the browser as text. Each gives the
// sentences of what is wrong.

/** Visible text whose contrast with what lies behind it is under the limit (WCAG's formula). */
export function barelySeen(limit) {
    const parse = (colour) => {
        const [r, g, b, a = 1] = colour.match(/[\d.]+/g).map(Number);
        return { r, g, b, a };
    };
    const light = ({ r, g, b }) => {
        const [x, y, z] = [r, g, b].map((each) => (each / 255 <= 0.04045 ? each / 255 / 12.92 : ((each / 255 + 0.055) / 1.055) ** 2.4));
        return 0.2126 * x + 0.7152 * y + 0.0722 * z;
    };
    const behind = (element) => {
        for (let each = element; each; each = each.parentElement) {
            const colour = parse(getComputedStyle(each).backgroundColor);
            if (colour.a === 1) return colour;
        }
        return { r: 255, g: 255, b: 255 };
    };
    const found = new Set();
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (walker.nextNode()) {
        const element = walker.currentNode.parentElement;
        if (!walker.currentNode.textContent.trim() || !element.checkVisibility({ visibilityProperty: true }) || element.closest('svg, :disabled, option, .hidden-text')) continue;
        const [a, b] = [light(parse(getComputedStyle(element).color)), light(behind(element))];
        const contrast = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
        if (contrast < limit) found.add(`${contrast.toFixed(2)}: ${element.tagName} "${walker.currentNode.textContent.trim().slice(0, 40)}"`);
    }
    return [...found];
}

/** What is tapped and is smaller than the limit; a radio or box counts with its label. */
export function smallTargets(limit) {
    const found = [];
    for (const element of document.querySelectorAll('a[href], button, input:not([type=file]), select, textarea, summary, [role=slider]')) {
        if (!element.checkVisibility({ visibilityProperty: true })) continue;
        const target = element.matches('[type=radio], [type=checkbox]') ? element.closest('label') : element;
        const { width, height } = target.getBoundingClientRect();
        if (width < limit - 0.01 || height < limit - 0.01) found.push(`${width.toFixed(0)} x ${height.toFixed(0)}: ${element.tagName} "${(element.getAttribute('aria-label') ?? target.textContent).trim().slice(0, 40)}"`);
    }
    return found;
}

/** What sticks out to the side, unless it lies in a box that is meant to be moved. */
export function overflowing() {
    const found = [];
    const width = document.documentElement.clientWidth;
    if (document.scrollingElement.scrollWidth > width) found.push(`the page is ${document.scrollingElement.scrollWidth} wide, the window ${width}`);
    for (const element of document.body.querySelectorAll('*')) {
        if (!element.checkVisibility() || element.closest('svg, .scroll, .box, .sheet, .hidden-text, .face')) continue;
        const { right, left } = element.getBoundingClientRect();
        if (right > width + 1 || left < -1) found.push(`${element.tagName}.${element.className} from ${left.toFixed(0)} to ${right.toFixed(0)}: "${element.textContent.trim().slice(0, 40)}"`);
    }
    return found;
}

/** Words that are cut off by what they stand in. A job's name may end in dots: it stands whole in Prepare. */
export function clipped() {
    const found = [];
    for (const element of document.querySelectorAll('button, a, label, legend, h1, h2, h3, p, strong, summary, output, th, td')) {
        if (!element.checkVisibility({ visibilityProperty: true }) || element.closest('.hidden-text, .sheet, .scroll') || getComputedStyle(element).textOverflow === 'ellipsis') continue;
        const range = document.createRange();
        range.selectNodeContents(element);
        const [text, box] = [range.getBoundingClientRect(), element.getBoundingClientRect()];
        if (getComputedStyle(element).display !== 'inline' && (element.scrollWidth > element.clientWidth + 1 || text.height > box.height * 1.3)) found.push(`${element.tagName} "${element.textContent.trim().slice(0, 40)}"`);
    }
    return found;
}
