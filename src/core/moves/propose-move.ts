import { dataChanges } from '../gait-model/data-changes.ts';
import type { MarkerDefinition, MarkerSet } from '../marker-set/marker-set.ts';
import { radiusOf, slidesOf } from '../pose/slides.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import { ruleKinds } from '../rule-kinds/all-rule-kinds.ts';
import { degreesPerRadian, outwardSign } from '../rule-kinds/positions.ts';
import type { AssessedRule } from '../rules/assess-rules.ts';
import { sayValue } from '../rules/rule-words.ts';
import type { Session } from '../session/session.ts';
import { sayChanges } from './changes-words.ts';
import { likelyOff } from './choose-marker.ts';
import type { MoveProposal, MoveVector } from './move.ts';
import { landmarkOf, roundMm, type SlideAmount, sayAlong, sayDistances, waysOf, whose } from './move-words.ts';
import { width } from './solve-displacement.ts';

/**
 * What to do about one marker, in figures and in words: from where it is to where the geometry expects it.
 * @param probability that the marker is off this way; null where nothing weighed it
 * @param either the marker of the other side would explain the findings as well
 * @param knownToMm 1 SD of the distance, where it was weighed over the whole body
 */
export function proposeMove(
  set: MarkerSet,
  session: Session,
  marker: MarkerDefinition,
  before: StandingBody,
  after: StandingBody,
  resolves: readonly AssessedRule[],
  either: boolean,
  probability: number | null,
  knownToMm: number | null = null,
): MoveProposal {
  const shift = shiftIn(before, after, marker);
  // A landmark's way along the skin is told as its segment lies when the marker is right; a wand starts where it is.
  const skin = marker.wandLengthMm > 0 ? before : after;
  const amounts: SlideAmount[] = slidesOf(skin, marker).map(({ direction, vector }) => ({
    direction,
    mm: shift[0] * vector[0] + shift[1] * vector[1] + shift[2] * vector[2],
  }));
  const landmark = landmarkOf(marker, session, set.variants);
  const distanceMm = Math.hypot(...shift);
  const naming = resolves.filter(({ rule }) => rule.mayMove.includes(marker.label));
  const uncertaintyMm =
    knownToMm === null
      ? uncertaintyOf(marker, amounts, before, after, distanceMm, naming)
      : Math.hypot(handOf(marker, amounts), knownToMm);
  const turn = marker.wandLengthMm > 0 ? wandTurn(before, after, marker) : null;
  const changes = dataChanges(before, after, session);
  const common = {
    marker: marker.label,
    landmark,
    called: marker.called,
    side: marker.side,
    mm: vectorOf(shift, marker),
    along: sayAlong(marker, amounts),
    ways: waysOf(marker, amounts),
    ...(turn === null ? {} : turn),
    distanceMm,
    uncertaintyMm,
    probability,
    ...(changes === null ? {} : { changes: { ...changes, says: sayChanges(changes, marker) } }),
    resolves: resolves.map(({ rule }) => rule.id),
    confirmBy: marker.confirm,
    why: resolves[0]?.rule.why ?? '',
  };
  if (marker.placedBy === 'palpation') {
    const name =
      marker.side === 'midline'
        ? `again for ${whose(marker)}`
        : either
          ? `the patient's ${landmark} again on both sides`
          : `the patient's ${marker.side} ${landmark} again`;
    const which = either ? `On the ${marker.side} the` : 'The';
    return {
      action: 'palpate-again',
      ...common,
      ...(either ? { bothSides: true as const } : {}),
      instruction: `Palpate ${name}. ${which} geometry expects the marker about ${sayDistances(marker, amounts)}${giveOrTake(uncertaintyMm)}. On the bone, it stays: record that.`,
      finding: `${reasonFor(resolves)}, and nothing recorded explains it`,
    };
  }
  const order =
    turn === null
      ? `ove ${whose(marker)} ${sayDistances(marker, amounts)}.`
      : `urn ${whose(marker)} ${Math.round(Math.abs(turn.turnDeg))}° ${sayAlong(marker, amounts)}: its tip goes ${roundMm(marker, turn.tipMm)} mm, its base ${roundMm(marker, turn.baseMm)} mm.`;
  const [now, then] = turn === null ? ['M', 'm'] : ['T', 't'];
  const leaps = before.averaged.jumps[before.set.markers.indexOf(marker)]! > 0;
  if (leaps) {
    return {
      action: 'palpate-again',
      ...common,
      instruction: `Look again at ${whose(marker)}: in the frames used it leaps further than anybody moves. Check the label, capture again, and move it only if it is still off then.`,
      finding: reasonFor(resolves),
    };
  }
  if (probability === null || probability >= likelyOff) return { action: 'move', ...common, instruction: now + order };
  // Nobody moves on a mere possibility: the eye looks first.
  return {
    action: 'palpate-again',
    ...common,
    instruction: `Look again at ${whose(marker)}. Only if the eye finds it off, ${then}${order}`,
    finding: reasonFor(resolves),
  };
}

function reasonFor([first]: readonly AssessedRule[]): string {
  return first === undefined
    ? 'it does not fit the rest of the body'
    : sayValue(first.rule, first.description.value, first.description.bounds);
}

/** How well such a marker is placed by hand along the way it mostly goes, 1 SD. */
function handOf(marker: MarkerDefinition, amounts: readonly SlideAmount[]): number {
  const main = [...amounts].sort((a, b) => Math.abs(b.mm) - Math.abs(a.mm))[0]!;
  return marker.scatterMm[main.direction === 'left' ? 'outward' : main.direction];
}

/** A loose distance says so; in steps of 5 mm, as such distances are told, never as less than it is. */
function giveOrTake(uncertaintyMm: number): string {
  return uncertaintyMm < 5 ? '' : ` (give or take ${Math.ceil(uncertaintyMm / 5) * 5} mm)`;
}

/** How far the marker goes, in the body axes it is seen in now. */
function shiftIn(before: StandingBody, after: StandingBody, marker: MarkerDefinition): [number, number, number] {
  const slot = before.geometry.lookup.point(marker.label);
  const { forward, left, up } = before.geometry.axes(before.lab);
  const lab = [0, 1, 2].map((axis) => after.lab[slot + axis]! - before.lab[slot + axis]!);
  const along = (axis: readonly number[]): number => axis[0]! * lab[0]! + axis[1]! * lab[1]! + axis[2]! * lab[2]!;
  return [along(forward), along(left), along(up)];
}

function vectorOf(shift: readonly [number, number, number], marker: MarkerDefinition): MoveVector {
  const [forward, left, up] = shift;
  if (marker.side === 'midline') return { forward, up, left };
  return { forward, up, outward: outwardSign(marker.side) * left };
}

/** Degrees about the segment's long axis, positive forward, and how far tip and base travel. */
function wandTurn(
  before: StandingBody,
  after: StandingBody,
  marker: MarkerDefinition,
): { turnDeg: number; tipMm: number; baseMm: number } {
  const from = radiusOf(before, marker);
  const shift = shiftIn(before, after, marker);
  const tangent = slidesOf(before, marker)[0]!.vector;
  const reach = Math.hypot(...from);
  const travel = shift[0] * tangent[0] + shift[1] * tangent[1] + shift[2] * tangent[2];
  const turnRad = Math.atan2(travel, reach);
  const baseReach = Math.max(0, reach - marker.wandLengthMm - marker.baseThicknessMm);
  return {
    turnDeg: turnRad * degreesPerRadian,
    tipMm: Math.abs(travel),
    baseMm: Math.abs(baseReach * Math.tan(turnRad)),
  };
}

/**
 * 1 SD of the distance: how well such a marker is placed by hand, and how well the rules know the place. A rule of
 * the protocol knows it to its own uncertainty; one of anatomy only to the spread among people, about a third of its
 * allowed width. Taken through the slope of the rule along the way; the best-knowing rule counts.
 */
function uncertaintyOf(
  marker: MarkerDefinition,
  amounts: readonly SlideAmount[],
  before: StandingBody,
  after: StandingBody,
  distanceMm: number,
  rules: readonly AssessedRule[],
): number {
  const hand = handOf(marker, amounts);
  const known = rules.map(({ rule, parameters, uncertainty, description }) => {
    const kind = ruleKinds[rule.kind];
    const change = kind.residual(after.positions, parameters) - kind.residual(before.positions, parameters);
    const spread = rule.basis === 'anatomy' ? width(description.bounds) / 3 : 0;
    return (Math.hypot(uncertainty, spread) * distanceMm) / Math.abs(change);
  });
  return Math.hypot(
    hand,
    ...known
      .filter(Number.isFinite)
      .sort((a, b) => a - b)
      .slice(0, 1),
  );
}
