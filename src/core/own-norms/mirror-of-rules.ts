import type { MarkerSet } from '../marker-set/marker-set.ts';
import { bodyFromPositions } from '../pose/body-from-positions.ts';
import { ruleKinds } from '../rule-kinds/all-rule-kinds.ts';
import { assessRules, isAssessed } from '../rules/assess-rules.ts';
import { expectedRules } from '../rules/expected-rules.ts';
import type { Session } from '../session/session.ts';

/** The rule that says of the mirrored person what this one says, and whether with the same sign. */
export interface RuleMirror {
  readonly rule: string;
  readonly sign: 1 | -1;
}

type Positions = ReadonlyMap<string, readonly [number, number, number]>;

/** Uneven by a few mm each way, so that no residual is the same by chance on both sides. */
const unevenMm = 4;
const alikeShare = 1e-6;

/**
 * Which rule says of a mirrored person what a rule says of the person: found by mirroring one, not by names. Rules that
 * cannot be judged on it, or have no such partner, have none.
 * @param session of that person; with the stature, where rules need it
 * @param positions a standing person by label; forward, left, up, mm
 */
export function mirrorOfRules(set: MarkerSet, session: Session, positions: Positions): Map<string, RuleMirror> {
  const uneven = new Map(
    [...positions].map(([label, [x, y, z]], index) => {
      const by = (k: number): number => unevenMm * Math.sin(1 + 2.3 * index + 4.1 * k);
      return [label, [x + by(0), y + by(1), z + by(2)] as [number, number, number]];
    }),
  );
  const mirrored = new Map(
    set.markers.flatMap(({ label, mirror }) => {
      const other = uneven.get(mirror ?? label);
      return other === undefined ? [] : [[label, [other[0], -other[1], other[2]] as [number, number, number]]];
    }),
  );
  const own = residualsOf(set, session, uneven);
  const other = residualsOf(set, session, mirrored);
  return new Map(
    [...own].flatMap(([rule, value]): [string, RuleMirror][] => {
      const partners = [...other].flatMap(([partner, said]): RuleMirror[] => {
        const sign = signOf(said, value);
        return sign === 0 ? [] : [{ rule: partner, sign }];
      });
      // Two rules may say the same: then the one of its own name.
      const best = partners.find((partner) => stemOf(partner.rule) === stemOf(rule)) ?? partners[0];
      return best === undefined ? [] : [[rule, best]];
    }),
  );
}

function signOf(said: number, value: number): 1 | -1 | 0 {
  const reach = alikeShare * Math.max(1, Math.abs(value));
  if (Math.abs(said - value) < reach) return 1;
  return Math.abs(said + value) < reach ? -1 : 0;
}

function stemOf(rule: string): string {
  return rule.replace(/\.(?:right|left)$/, '');
}

function residualsOf(set: MarkerSet, session: Session, positions: Positions): Map<string, number> {
  const body = bodyFromPositions(set, session, (label) => positions.get(label) as [number, number, number]);
  if (body === null) return new Map();
  const judged = assessRules(body, expectedRules(set, session), session).filter(isAssessed);
  return new Map(
    judged.map(({ rule, parameters }) => [rule.id, ruleKinds[rule.kind].residual(body.positions, parameters)]),
  );
}
