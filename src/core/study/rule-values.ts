import type { MarkerSet } from '../marker-set/marker-set.ts';
import { type StandingBody, withMarkersAt } from '../pose/standing-body.ts';
import { assessRules, isAssessed } from '../rules/assess-rules.ts';
import { expectedRules } from '../rules/expected-rules.ts';
import type { Session } from '../session/session.ts';
import { displacedAlong } from './displaced-along.ts';
import type { PlacementDirection, PlacementValues } from './placement-values.ts';
import type { StudyCapture } from './study-capture.ts';

/** A marker that is set by eye, against the markers that its protocol names. */
export interface RuleValues extends PlacementValues {
  readonly rule: string;
}

/** A rule that hardly follows its marker tells nothing of its placing; per mm. */
const leastSensitivity = 0.1;

/**
 * Markers set by eye follow the palpated ones, so what is theirs is how they keep the rule by which the protocol places
 * them: the wand in line, the heel level. The residual is told as millimetres of the marker, along the direction of its
 * segment in which the rule feels it most.
 */
export function ruleValues(set: MarkerSet, captures: readonly StudyCapture[]): RuleValues[] {
  const residuals = captures.map(({ body, recorded }) => residualsOf(body, recorded));
  return set.rules.flatMap((rule): RuleValues[] => {
    const [follower] = rule.mayMove;
    const marker = set.markers.find(({ label }) => label === follower);
    if (rule.basis !== 'construction' || marker?.placedBy !== 'eye') return [];
    const at = captures.findIndex((_, index) => residuals[index]!.has(rule.id));
    if (at < 0) return [];
    const segment = set.segments.find(
      ({ name }) => name === marker.segment || name === `${marker.segment}.${marker.side}`,
    )!;
    const felt = feltMost(captures[at]!, rule.id, marker.label, segment.name);
    if (felt === null) return [];
    const values = residuals.map((of) => (of.has(rule.id) ? of.get(rule.id)! / felt.perMm : null));
    const way = felt.direction === 'outward' && marker.side === 'midline' ? 'left' : felt.direction;
    return [
      {
        marker: marker.label,
        segment: segment.name,
        direction: way,
        rule: rule.id,
        values,
        leverage: 0,
        isTold: true,
        toShift: 1,
      },
    ];
  });
}

function residualsOf(body: StandingBody, recorded: Session): Map<string, number> {
  const outcomes = assessRules(body, expectedRules(body.set, recorded), recorded).filter(isAssessed);
  return new Map(outcomes.map(({ rule, description }) => [rule.id, description.value]));
}

/** The direction along which one millimetre of the marker changes the rule most. */
function feltMost(
  { body, recorded }: StudyCapture,
  rule: string,
  marker: string,
  segment: string,
): { readonly direction: PlacementDirection; readonly perMm: number } | null {
  const here = residualsOf(body, recorded).get(rule)!;
  const felt = (['forward', 'up', 'outward'] as const).map((direction) => {
    const lab = displacedAlong(body, marker, segment, direction, 1);
    const there = residualsOf(withMarkersAt(body, lab), recorded).get(rule) ?? here;
    return { direction, perMm: there - here };
  });
  const most = felt.reduce((best, one) => (Math.abs(one.perMm) > Math.abs(best.perMm) ? one : best));
  return Math.abs(most.perMm) < leastSensitivity ? null : most;
}
