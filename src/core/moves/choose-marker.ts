import type { WeighedMarkers } from '../decision/weigh-markers.ts';
import { direction, dot, type Vec3 } from '../geometry/vector.ts';
import { brokenOrders } from '../labels/broken-orders.ts';
import type { MarkerDefinition, RuleDefinition } from '../marker-set/marker-set.ts';
import { type StandingBody, withMarkersAt } from '../pose/standing-body.ts';
import { ruleKinds } from '../rule-kinds/all-rule-kinds.ts';
import type { AssessedRule } from '../rules/assess-rules.ts';
import { failingOn } from './failing-rules.ts';
import { solveDisplacement, width } from './solve-displacement.ts';

/** A marker that could be the one that is off, and the body with it where the rules want it. */
export interface Suspect {
  readonly marker: MarkerDefinition;
  readonly corrected: StandingBody;
  /** Rules that fail after the correction. */
  readonly failing: readonly AssessedRule[];
  /** What remains over all rules after the correction: less is better. */
  readonly remains: number;
  /** That the marker stands off its place the way it would be moved back from; null without norms. */
  readonly probability: number | null;
  /** 1 SD of how far it is off, where the weighing tells; mm. */
  readonly knownToMm: number | null;
}

/** From here on a marker is called likely to be off; under it nothing is ordered to move. */
export const likelyOff = 0.4;

/** One rule counts at most this much (three times its width, squared), so that no single one decides everything. */
const mostPerRule = 9;
/** What remains within this share of the best tells no difference. */
const alike = 1.05;

/**
 * Which marker to doubt for a set of failing rules, best first, among those that may move and whose correction mends
 * more than it breaks.
 *
 * With norms, by the probability that the marker is off that way, weighed over the whole body. Without, by residuals
 * only: the one whose correction leaves the fewest rules failing, then one that the protocol sets by others, then the
 * one that leaves the whole body most ordinary; of equals, the one that the rules name first.
 *
 * @param open rules for which a marker is sought
 * @param failing every rule that a marker has to answer for
 * @param assessed rules to weigh the whole body by
 */
export function rankSuspects(
  body: StandingBody,
  open: readonly AssessedRule[],
  failing: readonly AssessedRule[],
  assessed: readonly AssessedRule[],
  mayMove: (marker: MarkerDefinition) => boolean,
  weighed: WeighedMarkers | null,
): Suspect[] {
  const failingNow = failingOn(body, assessed).length;
  const labels = [...new Set(open.flatMap(({ rule }) => rule.mayMove))];
  const suspects: Suspect[] = [];
  for (const label of labels) {
    const marker = body.set.markers.find((candidate) => candidate.label === label)!;
    if (!mayMove(marker) || !body.geometry.has(label)) continue;
    const weighedBack = weighed === null ? null : putBackAsWeighed(body, marker, open, weighed);
    const corrected = weighedBack?.body ?? solveDisplacement(body, marker, rulesToMeet(label, failing));
    if (corrected === null || breaksOrder(body, corrected)) continue;
    const after = failingOn(corrected, assessed);
    const probability = weighed?.probabilityToward(label, cameFrom(body, corrected, label)) ?? null;
    // Whom the weighing holds likely is not dropped for a rule that then fails beside it.
    if (after.length >= failingNow && !(weighedBack !== null && probability! >= likelyOff)) continue;
    const remains = remainder(corrected, assessed);
    suspects.push({ marker, corrected, failing: after, remains, probability, knownToMm: weighedBack?.sdMm ?? null });
  }
  if (weighed !== null) return suspects.sort((a, b) => b.probability! - a.probability!);
  const follows = ({ marker }: Suspect): number => (open.some(({ rule }) => isFollower(marker, rule)) ? 0 : 1);
  suspects.sort((a, b) => a.failing.length - b.failing.length || follows(a) - follows(b) || a.remains - b.remains);
  return firstNamedFirst(suspects, labels);
}

/**
 * A landmark put back from where the weighing holds it to be, which is the body as a whole, and not by the middle of a
 * range that people fill. Null for a marker set by eye, whose place the protocol knows, and where that mends none of the
 * rules in question.
 */
function putBackAsWeighed(
  body: StandingBody,
  marker: MarkerDefinition,
  open: readonly AssessedRule[],
  weighed: WeighedMarkers,
): { body: StandingBody; sdMm: number } | null {
  const off = marker.placedBy === 'palpation' ? weighed.off(marker.label) : null;
  if (off === null) return null;
  const slot = body.geometry.lookup.point(marker.label);
  const { forward, left, up } = body.geometry.axes(body.lab);
  const lab = body.lab.slice();
  for (let axis = 0; axis < 3; axis++) {
    lab[slot + axis]! -= off.vector[0] * forward[axis]! + off.vector[1] * left[axis]! + off.vector[2] * up[axis]!;
  }
  const back = withMarkersAt(body, lab);
  return failingOn(back, open).length < failingOn(body, open).length ? { body: back, sdMm: off.sdMm } : null;
}

function isFollower(marker: MarkerDefinition, rule: RuleDefinition): boolean {
  return rule.basis === 'construction' && marker.placedBy === 'eye' && rule.mayMove[0] === marker.label;
}

/** From where the marker would be put right to where it is: the way it is off; unit vector in body axes. */
function cameFrom(body: StandingBody, corrected: StandingBody, label: string): Vec3 {
  const slot = body.geometry.lookup.point(label);
  const { forward, left, up } = body.geometry.axes(body.lab);
  const off: Vec3 = [0, 1, 2].map((axis) => body.lab[slot + axis]! - corrected.lab[slot + axis]!) as Vec3;
  return direction([dot(off, forward), dot(off, left), dot(off, up)]) ?? [0, 0, 0];
}

/** No landmark lies where the order of the body would be another one. */
function breaksOrder(before: StandingBody, after: StandingBody): boolean {
  const broken = brokenOrders(before.positions, before.set);
  return [...brokenOrders(after.positions, after.set)].some((order) => !broken.has(order));
}

/** Rules of the protocol that the marker has to follow, where any fails, since they know its place best; else all. */
function rulesToMeet(label: string, failing: readonly AssessedRule[]): AssessedRule[] {
  const own = failing.filter(({ rule }) => rule.mayMove.includes(label));
  const constructed = own.filter(({ rule }) => rule.basis === 'construction' && rule.mayMove[0] === label);
  return constructed.length > 0 ? constructed : own;
}

/** Log-odds under ln 3 tell two suspects apart no better than a guess. */
const tieRatio = 3;
const leastInTie = 0.1;

/** Whether nothing that is weighed here tells a suspect from the best one. */
export function explainsAsWell(suspect: Suspect, best: Suspect): boolean {
  if (suspect.probability !== null && best.probability !== null) {
    // Two that are both hardly off are no tie: then it is neither.
    return best.probability >= leastInTie && suspect.probability * tieRatio > best.probability;
  }
  return suspect.failing.length === best.failing.length && suspect.remains <= best.remains * alike;
}

function firstNamedFirst(suspects: readonly Suspect[], labels: readonly string[]): Suspect[] {
  const best = suspects[0];
  if (best === undefined) return [];
  const equals = suspects.filter((suspect) => explainsAsWell(suspect, best));
  equals.sort((a, b) => labels.indexOf(a.marker.label) - labels.indexOf(b.marker.label));
  return [equals[0]!, ...suspects.filter((suspect) => suspect !== equals[0])];
}

/** Squared residuals over the rules, each in units of its allowed width; the middle of a range is the usual place. */
function remainder(body: StandingBody, assessed: readonly AssessedRule[]): number {
  let sum = 0;
  for (const { rule, parameters, description } of assessed) {
    const residual = ruleKinds[rule.kind].residual(body.positions, parameters);
    const { low, high } = description.bounds;
    if (!Number.isFinite(high - low)) continue;
    sum += Math.min(mostPerRule, (residual / width(description.bounds)) ** 2);
  }
  return sum;
}
