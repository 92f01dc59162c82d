import type { C3dParameter } from './parameter.ts';
import { unsignedWord } from './parameter.ts';
import type { C3dGroup } from './parameters.ts';
import { storedNumber, storedText } from './point-group.ts';

/** What turns the stored analog values into the ones they stand for: (stored - offset) * scale. */
export interface AnalogScaling {
  /** one for each channel */
  readonly offsets: Float64Array;
  /** one for each channel, the general scale included */
  readonly scales: Float64Array;
  /** integers of the data section are 0 to 65535, not -32768 to 32767 */
  readonly unsigned: boolean;
}

/**
 * Scaling of the analog channels (C3D user guide, "Analog data"): ANALOG:OFFSET, SCALE and GEN_SCALE, integers and
 * floats alike; offsets are unsigned where ANALOG:FORMAT says UNSIGNED. Channels past the 255th go on in OFFSET2 and
 * SCALE2. A channel without an offset has 0, without a scale 1; so has one whose number is not finite.
 */
export function analogScaling(groups: ReadonlyMap<string, C3dGroup>, channels: number): AnalogScaling {
  const unsigned = storedText(groups, 'ANALOG', 'FORMAT')?.trim().toUpperCase() === 'UNSIGNED';
  const general = storedNumber(groups, 'ANALOG', 'GEN_SCALE') || 1;
  const offsets = perChannel(groups, 'OFFSET', channels, 0, (value, { type }) =>
    unsigned && type === 'int16' ? unsignedWord(value) : value,
  );
  const scales = perChannel(groups, 'SCALE', channels, 1, (value) => value);
  return { offsets, scales: scales.map((scale) => scale * general), unsigned };
}

/** Text of each channel, such as its label; '' where there is none. */
export function analogTexts(
  groups: ReadonlyMap<string, C3dGroup>,
  name: 'LABELS' | 'UNITS',
  channels: number,
): string[] {
  const texts: string[] = [];
  for (const { values } of continued(groups, name)) {
    for (const value of values) {
      if (texts.length === channels) return texts;
      texts.push(typeof value === 'string' ? value : '');
    }
  }
  while (texts.length < channels) texts.push('');
  return texts;
}

function perChannel(
  groups: ReadonlyMap<string, C3dGroup>,
  name: string,
  channels: number,
  missing: number,
  read: (value: number, parameter: C3dParameter) => number,
): Float64Array {
  const numbers = new Float64Array(channels).fill(missing);
  let channel = 0;
  for (const parameter of continued(groups, name)) {
    for (const value of parameter.values) {
      if (channel === channels) return numbers;
      if (typeof value === 'number' && Number.isFinite(value)) numbers[channel] = read(value, parameter);
      channel += 1;
    }
  }
  return numbers;
}

/** ANALOG:NAME, NAME2, NAME3 and so on. */
function continued(groups: ReadonlyMap<string, C3dGroup>, name: string): C3dParameter[] {
  const parameters = groups.get('ANALOG')?.parameters;
  const found: C3dParameter[] = [];
  for (let n = 1; ; n++) {
    const parameter = parameters?.get(n === 1 ? name : `${name}${n}`);
    if (parameter === undefined) return found;
    found.push(parameter);
  }
}
