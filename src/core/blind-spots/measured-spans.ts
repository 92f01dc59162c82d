import type { StandingBody } from '../pose/standing-body.ts';

/** Two markers whose distance the hand measures as well. */
export interface MeasuredSpan {
  readonly measure: string;
  readonly from: string;
  readonly to: string;
}

/** Readings of the session and the landmarks between which they are taken, by the names that the shipped sets use. */
const spans: readonly { measure: string; from: string; to: string; across?: true }[] = [
  { measure: 'pelvisWidth', from: 'ASIS', to: 'ASIS', across: true },
  { measure: 'asisTrochanterDepth', from: 'ASIS', to: 'GT' },
  { measure: 'asisPsisDepth', from: 'ASIS', to: 'PSIS' },
  { measure: 'legLength', from: 'ASIS', to: 'MM' },
  { measure: 'kneeDiameter', from: 'LE', to: 'ME' },
  { measure: 'ankleDiameter', from: 'LM', to: 'MM' },
];

/** The spans whose two markers are on this body. */
export function measuredSpans({ set, geometry }: StandingBody): MeasuredSpan[] {
  const labelOf = (stem: string, side: 'right' | 'left'): string | undefined =>
    set.markers.find((marker) => marker.stem === stem && marker.side === side && geometry.has(marker.label))?.label;
  return spans.flatMap(({ measure, from, to, across }) => {
    const sides = across ? (['right'] as const) : (['right', 'left'] as const);
    return sides.flatMap((side): MeasuredSpan[] => {
      const [a, b] = [labelOf(from, side), labelOf(to, across ? 'left' : side)];
      return a === undefined || b === undefined ? [] : [{ measure, from: a, to: b }];
    });
  });
}
