import { unsignedWord } from './parameter.ts';
import type { C3dGroup } from './parameters.ts';

type Groups = ReadonlyMap<string, C3dGroup>;

/** First number of a parameter as stored, or null where there is none. */
export function storedNumber(groups: Groups, group: string, name: string): number | null {
  const value = groups.get(group)?.parameters.get(name)?.values[0];
  return typeof value === 'number' && Number.isFinite(value) ? value : null;
}

/** First number of a parameter as a whole count of 0 or more, or null. Int16 counts are taken as unsigned. */
export function storedCount(groups: Groups, group: string, name: string): number | null {
  const type = groups.get(group)?.parameters.get(name)?.type;
  const value = storedNumber(groups, group, name);
  if (value === null) return null;
  const count = type === 'int16' ? unsignedWord(value) : value;
  return Number.isInteger(count) && count >= 0 ? count : null;
}

/** A 32-bit count stored as two words, low word first; a single word or a float stands for itself. */
export function storedLongCount(groups: Groups, group: string, name: string): number | null {
  const parameter = groups.get(group)?.parameters.get(name);
  const [low, high] = parameter?.values ?? [];
  if (parameter?.type !== 'int16' || typeof low !== 'number' || typeof high !== 'number') {
    return storedCount(groups, group, name);
  }
  return unsignedWord(low) + unsignedWord(high) * 65536;
}

/** First string of a parameter without padding, or null where it is absent or blank. */
export function storedText(groups: Groups, group: string, name: string): string | null {
  const value = groups.get(group)?.parameters.get(name)?.values[0];
  return typeof value === 'string' && value !== '' ? value : null;
}

/** POINT:LABELS, LABELS2, LABELS3 and so on, joined; null where there is no POINT:LABELS. */
export function storedLabels(groups: Groups): string[] | null {
  const parameters = groups.get('POINT')?.parameters;
  const labels: string[] = [];
  for (let n = 1; ; n++) {
    const values = parameters?.get(n === 1 ? 'LABELS' : `LABELS${n}`);
    if (values?.type !== 'char') return n === 1 ? null : labels;
    for (const value of values.values) labels.push(String(value));
  }
}
