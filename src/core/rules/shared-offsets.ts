import type { StandingBody } from '../pose/standing-body.ts';
import { type AssessedRule, isAssessed, type RuleOutcome } from './assess-rules.ts';
import { ruleStem } from './expected-rules.ts';

export interface SharedOffset {
  readonly rules: readonly [string, string];
  readonly message: string;
}

/**
 * Both sides off the same way by more than the borderline begins: what a mirror shows as symmetric may be a habit of
 * the hand or the way the patient's knees are turned. Without markers or a record of the direction, nothing in the
 * trial can tell the two apart, and it is said so.
 */
export function sharedOffsets(body: StandingBody, outcomes: readonly RuleOutcome[]): SharedOffset[] {
  const lined = outcomes
    .filter(isAssessed)
    .filter(({ rule }) => rule.kind === 'point-in-line' && rule.basis === 'construction');
  return lined
    .filter(({ rule }) => rule.side === 'right')
    .flatMap((right) => {
      const left = lined.find(({ rule }) => rule.side === 'left' && ruleStem(rule) === ruleStem(right.rule));
      if (left === undefined || way(right) === 0 || way(right) !== way(left)) return [];
      const forward = way(right) > 0;
      const known = knownDirection(body, right) && knownDirection(body, left);
      const place = `too far ${forward ? 'forward' : 'back'}`;
      const pair = right.rule.kind === 'point-in-line' ? calledBoth(body, right.rule.point) : '';
      const message = known
        ? `Both ${pair} stand ${place}: a shared habit of the hand is likely, since the directions of the joints are known.`
        : `Both ${pair} are off the same way: either both joints are turned ${forward ? 'in' : 'out'} or both wands are ${place}. The markers cannot tell; look at the kneecaps.`;
      return [{ rules: [right.rule.id, left.rule.id] as const, message }];
    });
}

/** +1 and -1 where the value lies beyond the start of the borderline band, 0 within. */
function way({ description: { value, bounds } }: AssessedRule): number {
  if (value > bounds.high - bounds.borderline) return 1;
  return value < bounds.low + bounds.borderline ? -1 : 0;
}

function knownDirection(body: StandingBody, { rule }: AssessedRule): boolean {
  return rule.kind === 'point-in-line' && body.geometry.view(rule.view).from !== 'estimate';
}

function calledBoth(body: StandingBody, label: string): string {
  return `${body.set.markers.find((marker) => marker.label === label)?.called ?? 'marker'}s`;
}
