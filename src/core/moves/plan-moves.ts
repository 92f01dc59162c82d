import type { WeighedMarkers } from '../decision/weigh-markers.ts';
import type { MarkerSet, RuleDefinition } from '../marker-set/marker-set.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import { type AssessedRule, isAssessed, type RuleOutcome } from '../rules/assess-rules.ts';
import type { StanceOutcome } from '../rules/assess-stance.ts';
import { ruleStem } from '../rules/expected-rules.ts';
import { markersOf } from '../rules/rule-markers.ts';
import { sayValue } from '../rules/rule-words.ts';
import type { Session } from '../session/session.ts';
import type { Move, MoveProposal, Tie } from './move.ts';
import { landmarkOf, whose } from './move-words.ts';
import { type Correction, planCorrections } from './plan-corrections.ts';
import { proposeMove } from './propose-move.ts';
import { proposeExchange } from './propose-relabels.ts';

export interface MovePlan {
  readonly moves: readonly Move[];
  /** Rules that would still fail after every step; those that the stance explains are not counted. */
  readonly stillFailing: readonly string[];
  /** The search for the most probable explanation did not settle: distances rest on its first approximation. */
  readonly isRough: boolean;
}

/** How many rivals of a step are shown. */
const mostAlternatives = 3;
/** A rival less probable than this is not worth a look. */
const leastProbable = 0.1;

interface Draft {
  readonly proposal: MoveProposal;
  readonly alternatives: readonly MoveProposal[];
  /** Markers that the step rests on. */
  readonly needs: readonly string[];
  readonly tie: Tie | null;
}

/** Labels are doubted before any marker where an exchange is at least this probable. */
const likelyExchanged = 0.5;

/**
 * What to do, in the order in which a person does it: stance, labels, palpated landmarks, markers set by eye. Where
 * the stance explains a finding the advice is to stand again, and no marker is doubted for it.
 * @param weigh weighs which markers are off, where there are norms; asked only when a marker has to answer for something
 */
export function planMoves(
  body: StandingBody,
  outcomes: readonly RuleOutcome[],
  stance: readonly StanceOutcome[],
  relabels: readonly MoveProposal[],
  session: Session,
  weigh: () => WeighedMarkers | null,
): MovePlan {
  const { set } = body;
  const assessed = outcomes.filter(isAssessed);
  const failing = assessed.filter((outcome) => outcome.status === 'fail');
  const stood = stance.filter((item) => item.status === 'fail');
  const explained = failing.filter(({ rule }) => explains(stood, rule));
  const forMarkers = failing.filter((outcome) => !explained.includes(outcome));
  const weighed = forMarkers.length === 0 ? null : weigh();
  const exchange = likelyExchange(weighed);
  const mislabelled = forMarkers.filter(({ rule }) => rests(rule, exchange, body));
  const plan = planCorrections(
    body,
    forMarkers.filter((outcome) => !mislabelled.includes(outcome)),
    assessed,
    session,
    weighed,
  );

  const drafts: Draft[] = [];
  const draft = (proposal: MoveProposal): Draft => ({ proposal, alternatives: [], needs: [], tie: null });
  if (explained.length > 0) drafts.push(draft(proposeStance(stood, explained)));
  for (const proposal of relabels) drafts.push(draft(proposal));
  if (exchange !== null && mislabelled.length > 0) drafts.push(draft(proposeExchange(exchange, mislabelled, set)));
  for (const correction of plan.corrections) {
    drafts.push({
      proposal: proposeMove(
        set,
        session,
        correction.marker,
        correction.before,
        correction.after,
        correction.resolves,
        correction.either,
        correction.probability,
        correction.knownToMm,
      ),
      alternatives: alternativesOf(set, session, correction),
      needs: placedOn(body, correction),
      tie: correction.tie,
    });
  }
  const explainedIds = new Set([...explained, ...mislabelled].map(({ rule }) => rule.id));
  const unmet = plan.stillFailing.filter(
    ({ rule }) => !explainedIds.has(rule.id) && forMarkers.some((one) => one.rule.id === rule.id),
  );
  // A landmark to look at comes before the markers that are set on it.
  const firstByEye = drafts.findIndex(({ proposal }) => proposal.action === 'move');
  drafts.splice(
    firstByEye < 0 ? drafts.length : firstByEye,
    0,
    ...unmet.map((outcome) => draft(proposeLook(set, session, outcome))),
  );
  return {
    moves: drafts.map(({ proposal, alternatives, needs, tie }, index) => ({
      step: index + 1,
      ...proposal,
      dependsOn: drafts.flatMap((earlier, at) => {
        if (at >= index) return [];
        const whole = earlier.proposal.action === 'stand-again' || earlier.proposal.action === 'relabel';
        return whole || needs.includes(earlier.proposal.marker ?? '') ? [at + 1] : [];
      }),
      alternatives,
      tie,
    })),
    stillFailing: plan.stillFailing.map(({ rule }) => rule.id).filter((id) => !explainedIds.has(id)),
    isRough: plan.corrections.length > 0 && weighed?.explanations[0]?.converged === false,
  };
}

function likelyExchange(weighed: WeighedMarkers | null): WeighedMarkers['exchange'] {
  const exchange = weighed?.exchange ?? null;
  return exchange !== null && exchange.probability >= likelyExchanged ? exchange : null;
}

function rests(rule: RuleDefinition, exchange: WeighedMarkers['exchange'], { set, geometry }: StandingBody): boolean {
  return exchange !== null && markersOf(rule, set, geometry.has).some((label) => exchange.labels.includes(label));
}

/**
 * Whether the stance accounts for a finding. A comparison of right and left is not explained by what both sides do.
 */
function explains(stood: readonly StanceOutcome[], rule: RuleDefinition): boolean {
  const named = stood.filter(({ item }) => rule.explainedBy.includes(item.id));
  if (rule.side !== 'both') return named.length > 0;
  return named.some(
    ({ item }) =>
      !named.some((other) => other.item.side === oppositeOf(item.side) && ruleStem(other.item) === ruleStem(item)),
  );
}

function oppositeOf(side: string): string {
  return side === 'right' ? 'left' : side === 'left' ? 'right' : 'none';
}

/** A finding that no shift of one marker mends: all that can be said is where to look. */
function proposeLook(set: MarkerSet, session: Session, { rule, description }: AssessedRule): MoveProposal {
  const named = rule.mayMove.map((label) => set.markers.find((marker) => marker.label === label)!);
  const says = sayValue(rule, description.value, description.bounds);
  const first = named[0]!;
  return {
    action: 'palpate-again',
    marker: first.label,
    landmark: landmarkOf(first, session, set.variants),
    called: first.called,
    side: first.side,
    probability: null,
    resolves: [],
    instruction: `Look again at ${anyOf(named.map(whose))}: no shift of one marker mends this. What is on its bone stays: record that.`,
    finding: `${says}, and nothing recorded explains it`,
    confirmBy: first.confirm,
    why: rule.why,
  };
}

/** "a", "a or b", "a, b or c". */
function anyOf(names: readonly string[]): string {
  return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} or ${names.at(-1)}`;
}

function proposeStance(stood: readonly StanceOutcome[], explained: readonly AssessedRule[]): MoveProposal {
  const blamed = stood.filter(({ item }) => explained.some(({ rule }) => rule.explainedBy.includes(item.id)));
  // What the model reads of hips and pelvis belongs to the same picture, and follows when the patient stands otherwise.
  const beside = stood.filter(({ item }) => 'angle' in item);
  const seen = [...new Set([...blamed, ...beside])].map(({ item, description }) =>
    sayValue(item, description.value, description.bounds),
  );
  const advice = [...new Set(blamed.map(({ item }) => item.advice))].join(' ');
  const says = seen.join(', and ');
  return {
    action: 'stand-again',
    probability: null,
    resolves: explained.map(({ rule }) => rule.id),
    instruction: `Stand again: ${says}. ${advice}`,
    confirmBy:
      'If the patient cannot stand otherwise, record that (contracture, support): then it is expected, and no longer asked.',
    why: 'The way the patient stands may explain these findings; no marker is doubted for them before.',
  };
}

function alternativesOf(set: MarkerSet, session: Session, { before, rivals, resolves }: Correction): MoveProposal[] {
  return rivals
    .filter(({ probability }) => probability === null || probability >= leastProbable)
    .slice(0, mostAlternatives)
    .map((rival) => {
      const own = resolves.filter(({ rule }) => rule.mayMove.includes(rival.marker.label));
      return proposeMove(
        set,
        session,
        rival.marker,
        before,
        rival.corrected,
        own,
        false,
        rival.probability,
        rival.knownToMm,
      );
    })
    .filter((proposal) => proposal.resolves.length > 0);
}

/** Markers on which the corrected one is placed: every other marker of the rules it has to satisfy. */
function placedOn(body: StandingBody, { marker, resolves }: Correction): string[] {
  return resolves
    .flatMap(({ rule }) => markersOf(rule, body.set, body.geometry.has))
    .filter((label) => label !== marker.label);
}
