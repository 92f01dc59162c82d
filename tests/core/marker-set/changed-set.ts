import { readFileSync } from 'node:fs';
import { MarkerSetError } from '../../../src/core/marker-set/marker-set-error.ts';
import { type LoadedMarkerSet, parseMarkerSet } from '../../../src/core/marker-set/parse-marker-set.ts';

// biome-ignore lint/suspicious/noExplicitAny: faults of every type are planted in it.
export type Loose = any;

/** A shipped set as data, and its entries by name, to plant a fault in. */
export interface Changeable {
  readonly set: Loose;
  marker(label: string): Loose;
  rule(id: string): Loose;
  point(name: string): Loose;
}

export type Change = (changeable: Changeable) => void;

export const shippedNames = ['lower-limb-wands-22', 'lower-limb-medial-20'] as const;

export function shippedText(name: (typeof shippedNames)[number] = 'lower-limb-wands-22'): string {
  return readFileSync(new URL(`../../../shared/marker-sets/${name}.json`, import.meta.url), 'utf8');
}

/** Text of the set of 22 markers with a change made to it. */
export function changedText(change: Change): string {
  const set: Loose = JSON.parse(shippedText());
  change({
    set,
    marker: (label) => set.markers.find((marker: Loose) => marker.label === label),
    rule: (id) => set.rules.find((rule: Loose) => rule.id === id),
    point: (name) => set.virtualPoints.find((point: Loose) => point.name === name),
  });
  return JSON.stringify(set);
}

export function parseChanged(change: Change): LoadedMarkerSet {
  return parseMarkerSet(changedText(change), '');
}

export function refusalOf(change: Change): { pointer: string; message: string } | null {
  return refusalOfText(changedText(change));
}

export function refusalOfText(text: string): { pointer: string; message: string } | null {
  try {
    parseMarkerSet(text, '');
    return null;
  } catch (error) {
    if (!(error instanceof MarkerSetError)) throw error;
    return { pointer: error.pointer, message: error.message };
  }
}

/** A pointer in which an entry stands by its own name, or as `last` for one that is added: by its index. */
export function placeOf(named: string): string {
  const set: Loose = JSON.parse(shippedText());
  return named.replace(/^\/(\w+)\/([^/]+)/, (as, list: string, name: string) => {
    if (!Array.isArray(set[list]) || /^\d+$/.test(name)) return as;
    if (name === 'last') return `/${list}/${set[list].length}`;
    const index = set[list].findIndex((entry: Loose) => [entry.label, entry.name, entry.id].includes(name));
    return `/${list}/${index}`;
  });
}
