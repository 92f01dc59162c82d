import { quoted } from '../schemas/show-value.ts';
import type { ComparisonKind } from './comparison-definition.ts';
import { type Draft, refuse } from './draft.ts';
import { sidesOf } from './expand-marker-set.ts';
import { mustKnow } from './known-names.ts';
import { isSided, type Measure } from './measure.ts';

/** How many markers each kind reads, and which measurements it can foretell. */
const asks: Readonly<Record<ComparisonKind, { readonly markers: number; readonly measures: readonly Measure[] }>> = {
  'between-markers': { markers: 2, measures: ['pelvisWidth', 'kneeDiameter', 'ankleDiameter'] },
  'along-leg': { markers: 3, measures: ['legLength'] },
  'pelvic-depth': { markers: 2, measures: ['asisTrochanterDepth'] },
  'stature-from-height': { markers: 1, measures: ['stature'] },
};

/** @throws MarkerSetError where the sheet is compared with what markers cannot foretell */
export function checkComparisons(draft: Draft): void {
  const markers = new Set(draft.set.markers.map(({ label }) => label));
  const ids = new Set<string>();
  const spelt = draft.set.comparisons.values();
  (draft.written.comparisons ?? []).forEach((entry, index) => {
    const pointer = `/comparisons/${index}`;
    if (ids.has(entry.id)) refuse(draft, `${pointer}/id`, `found ${quoted(entry.id)} twice; choose another name`);
    ids.add(entry.id);
    const { markers: count, measures } = asks[entry.kind];
    if (!measures.includes(entry.measure)) {
      refuse(
        draft,
        `${pointer}/measure`,
        `found ${quoted(entry.measure)}, which ${quoted(entry.kind)} does not foretell; it foretells ${measures.map(quoted).join(', ')}`,
      );
    }
    if (isSided(entry.measure) !== (entry.sided === true) && entry.kind !== 'stature-from-height') {
      refuse(
        draft,
        pointer,
        isSided(entry.measure)
          ? 'found no side, but this is measured on each; make it "sided": true'
          : 'found both sides, but this measure has none; take "sided" out',
      );
    }
    if (entry.markers.length !== count) {
      refuse(
        draft,
        `${pointer}/markers`,
        `found ${entry.markers.length} markers, expected ${count} for ${quoted(entry.kind)}`,
      );
    }
    if ((entry.kind === 'stature-from-height') !== (entry.height !== undefined)) {
      refuse(
        draft,
        pointer,
        entry.height === undefined
          ? 'found no "height", expected "cervicale" or "trochanterion"; add it'
          : 'found a "height", which only "stature-from-height" has; take it out',
      );
    }
    if (entry.kind === 'pelvic-depth' && !draft.set.virtualPoints.some(({ construct }) => construct === 'hip-centre')) {
      refuse(
        draft,
        `${pointer}/kind`,
        'found a depth of the pelvis, but the set has no hip centre that says which markers give the pelvis; add one',
      );
    }
    for (const _ of sidesOf(entry)) {
      const { markers: named } = spelt.next().value!;
      named.forEach((name, at) => mustKnow(draft, `${pointer}/markers/${at}`, name, 'marker', markers));
    }
  });
}
