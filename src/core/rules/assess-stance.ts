import type { MarkerSet, StanceDefinition } from '../marker-set/marker-set.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import { ruleKinds } from '../rule-kinds/all-rule-kinds.ts';
import { judge } from '../rule-kinds/allowed.ts';
import type { Description } from '../rule-kinds/rule-kind.ts';
import { isRecorded } from '../session/fact-names.ts';
import type { Session } from '../session/session.ts';
import { sideOf } from './expected-rules.ts';

export interface StanceOutcome {
  readonly item: StanceDefinition;
  readonly description: Description;
  /** `expected`: out of range, with a recorded reason. */
  readonly status: 'pass' | 'borderline' | 'fail' | 'expected';
}

/** How the person stands, for those looks whose points can be seen. */
export function assessStance(body: StandingBody, set: MarkerSet, session: Session): StanceOutcome[] {
  return set.stance.flatMap((item) => {
    const kind = ruleKinds[item.kind];
    if (!kind.needs(item).points.every((point) => body.geometry.has(point))) return [];
    const description = kind.describe(body.positions, kind.resolve(item, body.geometry.lookup));
    if (!Number.isFinite(description.value)) return [];
    const judged = judge(description.value, description.bounds, 0);
    const expected = judged === 'fail' && item.expectedWith.some((fact) => isRecorded(session, fact, sideOf(item)));
    return [{ item, description, status: expected ? ('expected' as const) : judged }];
  });
}
