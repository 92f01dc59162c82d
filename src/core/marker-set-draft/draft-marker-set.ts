import { needsMarkers } from '../marker-set/markers-behind.ts';
import type { LoadedMarkerSet } from '../marker-set/parse-marker-set.ts';
import type { WrittenMarkerSet } from '../marker-set/written-marker-set.ts';
import type { LandmarkPlace } from './landmark-places.ts';

/** A shipped set to start from, as written and spelt out. */
export interface BaseSet {
  readonly written: WrittenMarkerSet;
  readonly set: LoadedMarkerSet;
}

/** A label of the laboratory's files and the landmark it is taken for. */
export interface FoundLabel {
  readonly label: string;
  readonly landmark: LandmarkPlace;
}

/** `R_GT` for the trochanter of the right side; null for a landmark that no set has a marker for. */
export function labelOf({ stem, side }: LandmarkPlace): string | null {
  if (stem === null) return null;
  return side === 'midline' ? stem : `${side === 'right' ? 'R' : 'L'}_${stem}`;
}

/** A required marker that was not found counts against a set as much as these rules. */
const rulesPerMissing = 5;

/** The set that fits these landmarks best: many rules that could be judged, few required markers missing. */
export function nearestSet(bases: readonly BaseSet[], found: readonly FoundLabel[]): BaseSet {
  const labels = labelsIn(found);
  const merit = ({ set }: BaseSet): number => {
    const judged = set.rules.filter((rule) => needsMarkers(set, rule).every((label) => labels.has(label))).length;
    const missing = set.markers.filter(({ label, presence }) => presence === 'required' && !labels.has(label)).length;
    return judged - rulesPerMissing * missing;
  };
  return bases.reduce((best, base) => (merit(base) > merit(best) ? base : best));
}

/**
 * A marker set of the laboratory's own: the shipped one with the laboratory's labels as aliases, markers that were not
 * found made optional, and rules that could never be judged without them left out.
 */
export function draftMarkerSet(base: BaseSet, found: readonly FoundLabel[], name: string): WrittenMarkerSet {
  const { written, set } = base;
  const labels = labelsIn(found);
  const isKept = new Set(
    set.rules
      .filter((rule) => needsMarkers(set, rule).every((label) => labels.has(label)))
      .map((rule) =>
        rule.side === 'right' || rule.side === 'left' ? rule.id.slice(0, -rule.side.length - 1) : rule.id,
      ),
  );
  return {
    ...written,
    name,
    version: '0.1.0',
    title: `Draft from a standing trial, after ${written.name}: confirm every marker`,
    markers: written.markers.map((marker) => withAliases(marker, found)),
    rules: written.rules.filter(({ id }) => isKept.has(id)),
    variants: written.variants.map((variant) => ({
      ...variant,
      suspends: variant.suspends.filter(({ rule }) => isKept.has(rule)),
      allowed: Object.fromEntries(Object.entries(variant.allowed).filter(([rule]) => isKept.has(rule))),
    })),
  };
}

function labelsIn(found: readonly FoundLabel[]): Set<string> {
  return new Set(found.flatMap(({ landmark }) => labelOf(landmark) ?? []));
}

function withAliases(marker: WrittenMarkerSet['markers'][number], found: readonly FoundLabel[]) {
  const on = (side: LandmarkPlace['side']): string[] =>
    found.flatMap(({ label, landmark }) =>
      landmark.stem === marker.label && landmark.side === side && label !== '' && label !== labelOf(landmark)
        ? [label]
        : [],
    );
  const isFound = found.some(({ landmark }) => landmark.stem === marker.label);
  const presence = isFound ? marker.presence : ('optional' as const);
  const { aliases: _, ...rest } = marker;
  const [right, left, middle] = [on('right'), on('left'), on('midline')];
  if (marker.sided === true)
    return right.length + left.length === 0 ? { ...rest, presence } : { ...rest, aliases: { right, left }, presence };
  return middle.length === 0 ? { ...rest, presence } : { ...rest, aliases: middle, presence };
}
