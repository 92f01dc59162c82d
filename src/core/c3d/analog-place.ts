import type { C3dHeader } from './header.ts';
import type { C3dGroup } from './parameters.ts';
import { storedCount, storedNumber } from './point-group.ts';

/**
 * How the analog values of a frame divide into samples and channels. They follow the points of their frame, one
 * value of every channel for each sample. Samples a frame: the header; failing that ANALOG:RATE over the frame rate,
 * or the values over ANALOG:USED. The rate: ANALOG:RATE, failing that samples times the frame rate.
 */
export function analogOf(
  header: C3dHeader,
  groups: ReadonlyMap<string, C3dGroup>,
  analogPerFrame: number,
  rateHz: number | null,
): { channels: number; rateHz: number | null; samplesPerFrame: number } {
  if (analogPerFrame === 0) return { channels: 0, rateHz: null, samplesPerFrame: 0 };
  const storedRate = storedNumber(groups, 'ANALOG', 'RATE');
  const analogRate = storedRate !== null && storedRate > 0 ? storedRate : null;
  const used = storedCount(groups, 'ANALOG', 'USED');
  const possible = [
    header.analogSamplesPerFrame,
    analogRate !== null && rateHz !== null ? Math.round(analogRate / rateHz) : 0,
    used ? analogPerFrame / used : 0,
  ];
  const samplesPerFrame =
    possible.find((samples) => Number.isInteger(samples) && samples >= 1 && analogPerFrame % samples === 0) ?? 1;
  return {
    channels: analogPerFrame / samplesPerFrame,
    rateHz: analogRate ?? (rateHz === null ? null : rateHz * samplesPerFrame),
    samplesPerFrame,
  };
}
