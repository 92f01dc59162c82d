import { isSided, type Measure } from '../marker-set/measure.ts';
import type { Side } from '../rule-kinds/rule-kind.ts';
import { nameReading } from './measure-words.ts';
import { findQuantity } from './quantities.ts';
import type { Sheet } from './sheet.ts';
import type { SheetFinding } from './sheet-finding.ts';

/** What a laboratory takes before the markers go on; the depth to the PSIS is taken by few. */
const taken: readonly Measure[] = [
  'mass',
  'stature',
  'pelvisWidth',
  'asisTrochanterDepth',
  'legLength',
  'kneeDiameter',
  'ankleDiameter',
];

/** Measurements that are not on the sheet. A prosthesis has no malleoli to measure: there it is only said. */
export function checkMissing({ quantities, session }: Sheet): SheetFinding[] {
  return taken.flatMap((measure) =>
    (isSided(measure) ? (['right', 'left'] as const) : [null]).flatMap((side): SheetFinding[] => {
      if (findQuantity(quantities, measure, side) !== null) return [];
      const onProsthesis = side !== null && session.facts.prosthesis.includes(side as Side);
      return [
        {
          check: 'missing',
          status: onProsthesis ? 'note' : 'missing',
          readings: [{ measure, side }],
          says: `The ${nameReading({ measure, side })} is not on the sheet${onProsthesis ? ', and there is a prosthesis on that side' : ''}.`,
          source: 'the measurements that laboratories take before the markers; common practice',
          probability: null,
          settled: '',
        },
      ];
    }),
  );
}
