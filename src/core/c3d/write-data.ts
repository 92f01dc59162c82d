import type { C3dProcessor } from './byte-reader.ts';
import { ieeeToDecBits } from './dec-float.ts';

interface DataContents {
  processor: C3dProcessor;
  numberFormat: 'float' | 'int';
  scale: number;
  pointCount: number;
  frameCount: number;
  values: ArrayLike<number>;
  analog?: { labels: readonly string[]; samplesPerFrame: number; values: ArrayLike<number> };
}

/** Writes the data section into `bytes`: for each frame its points, then its analog values. */
export function writeData(bytes: Uint8Array, dataOffset: number, contents: DataContents): void {
  const { pointCount, frameCount, values, analog, processor, numberFormat, scale } = contents;
  const analogPerFrame = analog === undefined ? 0 : analog.labels.length * analog.samplesPerFrame;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const valueBytes = numberFormat === 'float' ? 4 : 2;
  const put = numberFormat === 'float' ? floatWriter(view, processor) : integerWriter(view, processor);
  const step = numberFormat === 'float' ? 1 : scale;
  // Neither integers nor DEC floats have a NaN or an infinity.
  const finiteOnly = numberFormat === 'int' || processor === 'dec';
  let at = dataOffset;
  let from = 0;
  for (let frame = 0; frame < frameCount; frame++) {
    for (let point = 0; point < pointCount; point++, from += 4, at += 4 * valueBytes) {
      const x = values[from]!;
      const y = values[from + 1]!;
      const z = values[from + 2]!;
      const word = values[from + 3]!;
      const lost = finiteOnly && !Number.isFinite(x + y + z + word);
      // The position of an invalid point means nothing, and need not fit the integers.
      const blank = lost || (numberFormat === 'int' && word < 0);
      put(at, blank ? 0 : x / step);
      put(at + valueBytes, blank ? 0 : y / step);
      put(at + 2 * valueBytes, blank ? 0 : z / step);
      put(at + 3 * valueBytes, lost ? -1 : numberFormat === 'int' ? integerWord(word) : word);
    }
    for (let i = 0; i < analogPerFrame; i++, at += valueBytes) put(at, analog!.values[frame * analogPerFrame + i]!);
  }
}

/** The residual word as a 16-bit integer that keeps its sign, which says whether the point is valid. */
function integerWord(word: number): number {
  return word < 0 ? Math.max(-32768, Math.min(-1, Math.round(word))) : Math.min(32767, Math.round(word));
}

function floatWriter(view: DataView, processor: C3dProcessor): (at: number, value: number) => void {
  if (processor !== 'dec') return (at, value) => view.setFloat32(at, value, processor === 'intel');
  return (at, value) => {
    view.setFloat32(at, value, true);
    view.setUint32(at, ieeeToDecBits(view.getUint32(at, true)), true);
  };
}

/** @throws {RangeError} from the writer returned, where a value does not fit a 16-bit integer. */
function integerWriter(view: DataView, processor: C3dProcessor): (at: number, value: number) => void {
  return (at, value) => {
    const integer = Math.round(value);
    if (!(integer >= -32768 && integer <= 32767)) {
      throw new RangeError(`A value is ${value} integer steps; the format holds -32768 to 32767: use a larger scale.`);
    }
    view.setInt16(at, integer, processor !== 'mips');
  };
}
