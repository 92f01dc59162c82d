import { nearestName } from '../schemas/nearest-name.ts';
import { anyOf, quoted } from '../schemas/show-value.ts';
import { type Draft, refuse } from './draft.ts';

/** What a name can stand for, in words. */
export type Nameable = 'marker' | 'marker or virtual point' | 'view' | 'segment' | 'stance item' | 'rule';

/** Refuses a name that stands for nothing, with the name that is probably meant. */
export function mustKnow(
  draft: Draft,
  pointer: string,
  name: string,
  what: Nameable,
  known: ReadonlySet<string>,
  where = 'of this set',
): void {
  if (known.has(name)) return;
  refuse(draft, pointer, `found ${quoted(name)}, expected a ${what} ${where}; ${remedy(draft, name, known)}`);
}

function remedy({ set }: Draft, name: string, known: ReadonlySet<string>): string {
  if (name.startsWith('@')) {
    const [right, left] = bothSides(name.slice(1), known) ?? ['R_GT', 'L_GT'];
    return `@ stands for a side, and this entry has none: write ${anyOf([right, left])}, or make it "sided": true`;
  }
  const sides = bothSides(name, known);
  if (sides !== null) {
    const short = sides[0].startsWith('R_') ? `@${name}` : `@.${name}`;
    return `it has two sides: write ${quoted(short)} where "sided" is true, else ${anyOf(sides)}`;
  }
  const owner = set.markers.find((marker) => marker.aliases.includes(name) && known.has(marker.label));
  if (owner !== undefined) return `that is an alias of ${quoted(owner.label)}, and rules go by the label: write that`;
  const nearest = nearestName(name, known);
  return nearest === null ? 'check its spelling, or add it' : `perhaps ${quoted(nearest)} is meant`;
}

/** The two full names that a name without its side stands for. */
function bothSides(name: string, known: ReadonlySet<string>): [string, string] | null {
  const stem = name.replace(/^\./, '');
  if (known.has(`R_${stem}`)) return [`R_${stem}`, `L_${stem}`];
  if (known.has(`${stem}.right`)) return [`${stem}.right`, `${stem}.left`];
  return null;
}

/** Calls `visit` with every name below the given fields of an entry, and the pointer to it. */
export function eachName(
  entry: object,
  pointer: string,
  fields: readonly string[],
  visit: (name: string, pointer: string, field: string) => void,
): void {
  for (const field of fields) {
    const value = (entry as Record<string, unknown>)[field];
    if (Object.hasOwn(entry, field)) walk(value, `${pointer}/${field}`, field);
  }
  function walk(value: unknown, place: string, field: string): void {
    if (typeof value === 'string') visit(value, place, field);
    else if (value !== null && typeof value === 'object') {
      for (const [key, item] of Object.entries(value)) walk(item, `${place}/${key}`, field);
    }
  }
}
