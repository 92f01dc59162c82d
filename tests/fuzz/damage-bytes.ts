import type { CaseRandom } from './case-random.ts';

const names = [
  'USED',
  'FRAMES',
  'SCALE',
  'RATE',
  'UNITS',
  'LABELS',
  'DATA_START',
  'X_SCREEN',
  'Y_SCREEN',
  'POINT',
  'ANALOG',
  'TRIAL',
  'ACTUAL_START_FIELD',
  'LONG_FRAMES',
  'OFFSET',
  'GEN_SCALE',
  'FORCE_PLATFORM',
  'TYPE',
  'CORNERS',
  'ORIGIN',
  'CHANNEL',
  'ZERO',
  'CAL_MATRIX',
].map((name) => [...name].map((letter) => letter.charCodeAt(0)));

const oddBytes = [0, 1, 2, 4, 0x50, 84, 85, 86, 127, 128, 254, 255];
const oddWords = [0, 1, 2, 3, 255, 256, 511, 512, 32767, 32768, 65534, 65535];
const oddSingles = [0, -0, 1, -1, 0.1, 1e-40, 1e-30, 1e10, 3.4e38, -3.4e38, Number.NaN, Infinity, -Infinity];

/** Damages a file in one to eight places. `others` are what pieces are taken from; the input stays as it is. */
export function damage(source: Uint8Array, others: readonly Uint8Array[], random: CaseRandom): Uint8Array {
  let bytes: Uint8Array = source.slice();
  for (let left = 1 + random.whole(8); left > 0; left--) bytes = damageOnce(bytes, others, random);
  return bytes;
}

function damageOnce(bytes: Uint8Array, others: readonly Uint8Array[], random: CaseRandom): Uint8Array {
  const kind = random.whole(20);
  if (kind < 13) {
    const at = place(bytes, random);
    overwrite(bytes, at, random);
    return bytes;
  }
  const from = random.whole(bytes.length + 1);
  const length = random.chance(0.3) ? 512 : random.whole(64);
  const piece = bytes.slice(from, from + length);
  switch (kind) {
    case 13:
      return bytes.slice(0, from);
    case 14:
      return joined(bytes.subarray(0, from), bytes.subarray(from + length));
    case 15:
      return joined(bytes.subarray(0, from), piece, bytes.subarray(from));
    case 16:
      bytes.fill(random.pick([0, 0x20, 255]), from, from + length);
      return bytes;
    case 17:
      bytes.set(piece.subarray(0, Math.max(0, bytes.length - from)), random.whole(Math.max(1, bytes.length - length)));
      return bytes;
    case 18: {
      const other = random.pick(others);
      const cut = random.chance(0.5) ? 512 * (1 + random.whole(6)) : random.whole(other.length + 1);
      return joined(bytes.subarray(0, random.chance(0.5) ? cut : from), other.subarray(cut));
    }
    default:
      return joined(bytes, new Uint8Array(random.pick([1, 511, 512, 3000])).fill(random.pick(oddBytes)));
  }
}

/** The header and the parameters decide everything, so most damage goes there. */
function place(bytes: Uint8Array, random: CaseRandom): number {
  const where = random.whole(10);
  if (where < 3) return random.whole(Math.min(24, bytes.length + 1));
  if (where < 6) return besideName(bytes, random.pick(names), random);
  if (where < 8) return 512 + random.whole(Math.max(1, Math.min(2048, bytes.length - 512)));
  return random.whole(bytes.length + 1);
}

/** In the record of that name: from its name length to its first values. */
function besideName(bytes: Uint8Array, name: readonly number[], random: CaseRandom): number {
  const from = random.whole(3) === 0 ? 1024 : 512;
  for (let at = from; at < bytes.length - name.length; at++) {
    let same = 0;
    while (same < name.length && bytes[at + same] === name[same]) same++;
    if (same === name.length) return random.chance(0.2) ? at - 2 + random.whole(2) : at + same + random.whole(9);
  }
  return from;
}

function overwrite(bytes: Uint8Array, at: number, random: CaseRandom): void {
  if (at < 0 || at >= bytes.length) return;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const littleEndian = random.chance(0.7);
  switch (random.whole(6)) {
    case 0:
      bytes[at] = random.whole(256);
      return;
    case 1:
      bytes[at] = random.pick(oddBytes);
      return;
    case 2:
      bytes[at]! ^= 1 << random.whole(8);
      return;
    case 3:
      if (at + 4 <= bytes.length) view.setFloat32(at, random.pick(oddSingles), littleEndian);
      return;
    case 4:
      if (at + 2 <= bytes.length) view.setUint16(at, random.whole(65536), littleEndian);
      return;
    default:
      if (at + 2 <= bytes.length) view.setUint16(at, random.pick(oddWords), littleEndian);
  }
}

function joined(...parts: readonly Uint8Array[]): Uint8Array {
  const bytes = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    bytes.set(part, at);
    at += part.length;
  }
  return bytes;
}
