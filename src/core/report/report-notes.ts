import type { MarkerSet } from '../marker-set/marker-set.ts';
import type { MovePlan } from '../moves/plan-moves.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import type { RuleOutcome } from '../rules/assess-rules.ts';
import type { StanceOutcome } from '../rules/assess-stance.ts';
import { ruleStem } from '../rules/expected-rules.ts';
import { sayValue } from '../rules/rule-words.ts';
import { sharedOffsets } from '../rules/shared-offsets.ts';
import type { Session } from '../session/session.ts';
import { sessionMismatches } from '../session/session-mismatches.ts';
import type { Report } from './report.ts';

/** What no single rule says: offsets that both sides share, axes that are only estimated, the stance, what was recorded. */
export function reportNotes(
  body: StandingBody,
  outcomes: readonly RuleOutcome[],
  stance: readonly StanceOutcome[],
  plan: MovePlan,
  set: MarkerSet,
  session: Session,
): Report['notes'] {
  return [
    ...sharedOffsets(body, outcomes).map(({ rules, message }) => ({ code: 'both-sides-alike', rules, message })),
    ...axesNotes(body),
    ...roughNotes(plan),
    ...stanceNotes(stance, plan),
    ...variantNotes(set, session),
    ...sessionMismatches(session, set).map((message) => ({ code: 'session-unknown', rules: [], message })),
  ];
}

/** Where one of the two markers that give the body its axes is not seen, the axes are only estimated. */
function axesNotes({ set, geometry }: StandingBody): Report['notes'][number][] {
  const missing = [set.bodyAxes.right, set.bodyAxes.left].filter((label) => !geometry.has(label));
  if (missing.length === 0) return [];
  return [
    {
      code: 'axes-estimated',
      rules: [],
      message: `${missing.join(' and ')} is not seen: forward and left are estimated from the other markers, and every direction in this report with them.`,
    },
  ];
}

/** Figures that are less sure than they look. */
function roughNotes({ isRough }: MovePlan): Report['notes'][number][] {
  if (!isRough) return [];
  const message =
    'The weighing of which marker is off did not settle: take the distances and how likely each marker is as rough.';
  return [{ code: 'weighing-rough', rules: [], message }];
}

/** A stance out of its range that explains no finding is still worth a second look. */
function stanceNotes(stance: readonly StanceOutcome[], plan: MovePlan): Report['notes'][number][] {
  if (plan.moves.some(({ action }) => action === 'stand-again')) return [];
  const out = stance.filter(({ item, status }) => status === 'fail' && !isMendedByStep(item, plan));
  if (out.length === 0) return [];
  const says = out.map(({ item, description }) => sayValue(item, description.value, description.bounds)).join(', and ');
  const advice = [...new Set(out.map(({ item }) => item.advice))].join(' ');
  return [
    {
      code: 'stance',
      rules: [],
      message: `Look at the stance: ${says}. ${advice} If the patient cannot stand otherwise, record why.`,
    },
  ];
}

/** A posture that is read otherwise once a doubted marker is right says nothing about the patient. */
function isMendedByStep(item: StanceOutcome['item'], { moves }: MovePlan): boolean {
  if (!('angle' in item)) return false;
  return moves.some(({ changes }) =>
    changes?.angles.some(
      ({ joint, motion, side, deg }) =>
        item.angle === `${joint}.${motion}` && item.side === side && Math.abs(deg) >= tellingDeg,
    ),
  );
}

const tellingDeg = 2;

/** What the recorded variants ask for, so that the reader knows what was expected. */
function variantNotes(set: MarkerSet, session: Session): Report['notes'][number][] {
  return session.facts.variants.map(({ id, side }) => {
    const variant = set.variants.find((candidate) => candidate.id === id);
    const on = side === null ? '' : `, ${side}`;
    if (variant === undefined) {
      return {
        code: 'variant-unknown',
        rules: [],
        message: `Recorded variant "${id}" is not in this marker set, so nothing was changed for it.`,
      };
    }
    const rules = set.rules
      .filter(
        (rule) =>
          variant.suspends.some((item) => item.rule === ruleStem(rule)) ||
          Object.hasOwn(variant.allowed, ruleStem(rule)),
      )
      .filter((rule) => side === null || rule.side === 'both' || rule.side === 'midline' || rule.side === side)
      .map((rule) => rule.id);
    return { code: 'variant', rules, message: `Recorded: ${variant.title}${on}. ${variant.says}` };
  });
}
