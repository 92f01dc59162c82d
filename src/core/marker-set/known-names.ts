import { valueAt } from '../schemas/json-pointer.ts';
import { nearestName } from '../schemas/nearest-name.ts';
import { anyOf, quoted } from '../schemas/show-value.ts';
import { type Draft, refuse } from './draft.ts';

/** What a name can stand for, in words. */
export type Nameable = 'marker' | 'marker or virtual point' | 'view' | 'segment' | 'stance item' | 'rule';

/** Where names have to stand that a point or view is computed from. */
export const writtenAbove = 'written above it';

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
  const written = valueAt(draft.written, pointer);
  const lower =
    where === writtenAbove &&
    draft.set[what === 'view' ? 'views' : 'virtualPoints'].some((entry) => entry.name === name);
  const found =
    typeof written === 'string' && written !== name && written.startsWith('@')
      ? `${quoted(written)}, which stands for ${quoted(name)}`
      : quoted(name);
  refuse(
    draft,
    pointer,
    `found ${found}, expected a ${what} ${where}; ${lower ? 'it is not written before this, so move it up' : remedy(draft, name, written, known)}`,
  );
}

function remedy({ set }: Draft, name: string, written: unknown, known: ReadonlySet<string>): string {
  if (name.startsWith('@')) {
    const sides = bothSides(name.slice(1), known) ?? ['R_GT', 'L_GT'];
    return `@ stands for a side, and this entry has none: write ${anyOf(sides)}, or make it "sided": true`;
  }
  const sides = bothSides(name, known);
  if (sides !== null) {
    const short = sides[0].startsWith('R_') ? `@${name}` : `@.${name}`;
    return `it has two sides: write ${quoted(short)} where "sided" is true, else ${anyOf(sides)}`;
  }
  const owner = set.markers.find((marker) => marker.aliases.includes(name) && known.has(marker.label));
  if (owner !== undefined) return `that is an alias of ${quoted(owner.label)}, and rules go by the label: write that`;
  // A point is "@GT", a view, segment, rule or stance item "@.thigh": the point is easily forgotten.
  const stem = typeof written === 'string' ? written.replace(/^@\.?/, '') : name;
  const other = bothSides(stem, known);
  const nearest = other === null ? nearestName(name, known) : other[0];
  if (nearest === null) return 'check its spelling, or add it';
  return `perhaps ${quoted(written !== name && String(written).startsWith('@') ? asSided(nearest) : nearest)} is meant`;
}

/** The name as a sided entry writes it: `@GT` for `R_GT`, `@.kneeAxis` for `kneeAxis.right`. */
function asSided(name: string): string {
  if (/^[RL]_/.test(name)) return `@${name.slice(2)}`;
  return /\.(right|left)$/.test(name) ? `@.${name.replace(/\.(right|left)$/, '')}` : name;
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
