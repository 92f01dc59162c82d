/**
 * SHA-256 (FIPS 180-4), 32 bytes. A browser gives its own only to pages from a secure address, and only
 * later; a page's policy and a trial's hash are needed at once, wherever the page comes from.
 */
export function sha256(bytes: Uint8Array): Uint8Array {
  const padded = new Uint8Array((((bytes.length + 8) >> 6) + 1) << 6);
  padded.set(bytes);
  padded[bytes.length] = 0x80;
  const view = new DataView(padded.buffer);
  view.setUint32(padded.length - 8, Math.floor(bytes.length / 2 ** 29));
  view.setUint32(padded.length - 4, (bytes.length << 3) >>> 0);

  const state = initial.slice();
  const w = new Uint32Array(64);
  for (let block = 0; block < padded.length; block += 64) {
    for (let t = 0; t < 16; t++) w[t] = view.getUint32(block + 4 * t);
    for (let t = 16; t < 64; t++) {
      const [x, y] = [w[t - 15]!, w[t - 2]!];
      const s0 = turn(x, 7) ^ turn(x, 18) ^ (x >>> 3);
      const s1 = turn(y, 17) ^ turn(y, 19) ^ (y >>> 10);
      w[t] = w[t - 16]! + s0 + w[t - 7]! + s1;
    }
    addBlock(state, w);
  }
  const digest = new DataView(new ArrayBuffer(32));
  state.forEach((word, index) => {
    digest.setUint32(4 * index, word);
  });
  return new Uint8Array(digest.buffer);
}

function addBlock(state: Uint32Array, w: Uint32Array): void {
  let [a, b, c, d, e, f, g, h] = state as unknown as number[] as [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  for (let t = 0; t < 64; t++) {
    const s1 = turn(e, 6) ^ turn(e, 11) ^ turn(e, 25);
    const t1 = (h + s1 + ((e & f) ^ (~e & g)) + constants[t]! + w[t]!) | 0;
    const s0 = turn(a, 2) ^ turn(a, 13) ^ turn(a, 22);
    const t2 = (s0 + ((a & b) ^ (a & c) ^ (b & c))) | 0;
    [h, g, f, e, d, c, b, a] = [g, f, e, (d + t1) | 0, c, b, a, (t1 + t2) | 0];
  }
  [a, b, c, d, e, f, g, h].forEach((word, index) => {
    state[index]! += word;
  });
}

function turn(word: number, by: number): number {
  return (word >>> by) | (word << (32 - by));
}

export function hexadecimal(bytes: Uint8Array): string {
  return [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

export function base64(bytes: Uint8Array): string {
  const letters = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';
  let text = '';
  for (let at = 0; at < bytes.length; at += 3) {
    const [x, y, z] = [bytes[at]!, bytes[at + 1], bytes[at + 2]];
    const group = (x << 16) | ((y ?? 0) << 8) | (z ?? 0);
    text += letters[group >> 18]! + letters[(group >> 12) & 63]!;
    text += y === undefined ? '=' : letters[(group >> 6) & 63]!;
    text += z === undefined ? '=' : letters[group & 63]!;
  }
  return text;
}

const primes = firstPrimes(64);
/** First 32 bits of the fractional parts of the roots of the first primes, as the standard defines both tables. */
const constants = Uint32Array.from(primes, (prime) => fraction(Math.cbrt(prime)));
const initial = Uint32Array.from(primes.slice(0, 8), (prime) => fraction(Math.sqrt(prime)));

function fraction(root: number): number {
  return Math.floor((root - Math.floor(root)) * 2 ** 32);
}

function firstPrimes(count: number): number[] {
  const found: number[] = [];
  for (let n = 2; found.length < count; n++) if (found.every((prime) => n % prime !== 0)) found.push(n);
  return found;
}
