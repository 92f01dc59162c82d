import { type C3dContents, writeC3d } from '../src/core/c3d/write-c3d.ts';

export const LARGE = { pointCount: 80, frameCount: 60_000 };
export const SMALL = { pointCount: 22, frameCount: 500 };

/** Points that drift and jitter about places of their own, every one of them seen, from a fixed generator. */
export function madeContents({ pointCount, frameCount }: { pointCount: number; frameCount: number }): C3dContents {
  const values = new Float32Array(pointCount * frameCount * 4);
  let state = 1;
  const next = () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
  const places = Float64Array.from({ length: pointCount * 3 }, () => next() * 2000 - 500);
  for (let index = 0, at = 0; index < pointCount * frameCount; index++, at += 4) {
    const place = (index % pointCount) * 3;
    for (let axis = 0; axis < 3; axis++) values[at + axis] = places[place + axis]! + next();
    values[at + 3] = 0x1f00 + Math.floor(next() * 100);
  }
  const labels = Array.from({ length: pointCount }, (_, point) => `P${point + 1}`);
  return { rateHz: 100, units: 'mm', labels, pointCount, frameCount, values };
}

export const formats = {
  'Intel, floats': { processor: 'intel', numberFormat: 'float' },
  'Intel, integers': { processor: 'intel', numberFormat: 'int' },
  'DEC, floats': { processor: 'dec', numberFormat: 'float' },
  'MIPS, floats': { processor: 'mips', numberFormat: 'float' },
  'MIPS, integers': { processor: 'mips', numberFormat: 'int' },
} as const;

export type FormatName = keyof typeof formats;

export function madeTrial(contents: C3dContents, format: FormatName): Uint8Array {
  return writeC3d({ ...contents, ...formats[format] });
}
