import { faultAt } from '../schemas/fault.ts';
import { valueAt } from '../schemas/json-pointer.ts';
import { show } from '../schemas/show-value.ts';
import { sidesOf } from './expand-marker-set.ts';
import type { MarkerSet } from './marker-set.ts';
import { MarkerSetError } from './marker-set-error.ts';
import type { WrittenEntry, WrittenMarkerSet } from './written-marker-set.ts';

/** A marker set that is still to be checked: as written, and with both sides spelt out. */
export interface Draft {
  readonly written: WrittenMarkerSet;
  readonly set: MarkerSet;
}

/** Refuses a marker set at a place of its file. @param trouble what was found, expected, and what to do */
export function refuse(draft: Draft, pointer: string, trouble: string): never {
  const fault = faultAt('marker set', draft.written, pointer, trouble);
  throw new MarkerSetError(fault.pointer, fault.message);
}

/** Two fields that must name two different points. */
export function refuseSame(
  draft: Draft,
  pointer: string,
  one: string,
  other: string,
  fields: readonly [string, string],
): void {
  if (one !== other) return;
  const place = `${pointer}/${fields[1]}`;
  const written = valueAt(draft.written, place) ?? other;
  refuse(
    draft,
    place,
    `found ${show(written)} as "${fields[0]}" and as "${fields[1]}", expected two different points; correct one`,
  );
}

type Collection = 'markers' | 'segments' | 'virtualPoints' | 'views' | 'rules' | 'stance' | 'orders';

/** One side of an entry, with the entry as written and where that stands. */
export interface DraftEntry<Name extends Collection> {
  readonly pointer: string;
  readonly written: WrittenMarkerSet[Name][number];
  readonly item: MarkerSet[Name][number];
}

/** The entries of a list with both sides spelt out, each with its place in the file. */
export function entriesOf<Name extends Collection>({ written, set }: Draft, collection: Name): DraftEntry<Name>[] {
  const items = set[collection].values() as IterableIterator<MarkerSet[Name][number]>;
  return written[collection].flatMap((entry, index) =>
    sidesOf(entry as WrittenEntry).map(() => ({
      pointer: `/${collection}/${index}`,
      written: entry as WrittenMarkerSet[Name][number],
      item: items.next().value!,
    })),
  );
}
