import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { base64, hexadecimal, sha256 } from '../../src/page/sha256.ts';

describe('sha256', () => {
  it('gives the digests of the standard (FIPS 180-2, appendix B)', () => {
    const of = (text: string) => hexadecimal(sha256(new TextEncoder().encode(text)));
    expect(of('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
    expect(of('abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq')).toBe(
      '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
    );
  });

  it('agrees with Node.js on whatever bytes, in hexadecimal and base64', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => {
        const digest = sha256(bytes);
        expect(hexadecimal(digest)).toBe(createHash('sha256').update(bytes).digest('hex'));
        expect(base64(digest)).toBe(createHash('sha256').update(bytes).digest('base64'));
        expect(base64(bytes)).toBe(Buffer.from(bytes).toString('base64'));
      }),
    );
  });
});
