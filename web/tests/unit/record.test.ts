import { describe, expect, it } from 'vitest';
import { fingerprint, parted, rulesOfPart } from '../../src/screens/handover/record';

describe('the record as a part of the page', () => {
    it('is parted from its style sheets', () => {
        expect(parted('<head><style>a{}</style><title>t</title><style media="print">b{}</style></head><main>x</main>')).toEqual({ styles: 'a{}\nb{}', rest: '<head><title>t</title></head><main>x</main>' });
    });
    it('has its rules for the page hold for the part', () => {
        expect(rulesOfPart('html{a:b}body,main{c:d}@media print{main{e:f}}.body{g:h}')).toBe(':host{a:b}:host,.record{c:d}@media print{.record{e:f}}.body{g:h}');
    });
    // Digest of "abc": FIPS 180-4, appendix of examples (from memory).
    it('has the fingerprint of the bytes', async () => {
        expect(await fingerprint('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
    });
});
