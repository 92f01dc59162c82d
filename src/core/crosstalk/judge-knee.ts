import { distance } from '../geometry/vector.ts';
import type { MarkerSet } from '../marker-set/marker-set.ts';
import { degreesPerRadian } from '../rule-kinds/positions.ts';
import type { Side } from '../rule-kinds/rule-kind.ts';
import { estimateAxisTurn } from './axis-turn.ts';
import type { Agreement, KneeCrosstalk, KneeNotUsable } from './crosstalk.ts';
import { adviceFor, type StandingKnee, sayKnee } from './crosstalk-words.ts';
import type { KneeCurve } from './knee-curve.ts';
import type { StaticTurn } from './static-turn.ts';

/** Less than this tells nothing: an axis turned by 8 degrees shows 4 degrees of varus-valgus over 30 of flexion. */
export const leastFlexionRangeDeg = 30;
/** An eighth of them is left out at a time. */
const leastFrames = 24;
/**
 * Knees are no hinges and skin slides: over 60 degrees of flexion varus-valgus of a well-marked knee changes by about 2
 * degrees, 1 SD, which is a turn of 2.5 (from memory).
 */
const kneesThemselvesDeg = 2.5;
/** The bands of Fonseca et al. (2022, Sci Rep, doi 10.1038/s41598-022-18546-5): 2 degrees optimal, 5 acceptable. */
export const turnBandsDeg = { optimal: 2, acceptable: 5 } as const;
/** A turn that leaves most of the varus-valgus is not what causes it. */
const leastExplained = 0.5;
/** Centres that far from where they were against each other are other markers, or another person. */
const sameShankMm = 15;
const mostInSeries = 200;

/**
 * What one knee shows.
 * @param found what the steps of the static report say of its axis
 * @param firstFrame number of the movement's first frame, as the file counts
 */
export function judgeKnee(
  side: Side,
  curve: KneeCurve,
  standing: StandingKnee,
  found: StaticTurn,
  set: MarkerSet,
  firstFrame: number,
): KneeCrosstalk | KneeNotUsable {
  const standingShankMm = distance(standing.leg.knee, standing.leg.ankle);
  const count = curve.frames.length;
  if (count < leastFrames) {
    return {
      side,
      reason: `The markers of the ${side} leg are seen together in ${count} frames; ${leastFrames} are needed.`,
    };
  }
  const shankMm = middle(curve.shankMm);
  if (Math.abs(shankMm - standingShankMm) > sameShankMm) {
    return {
      side,
      reason: `From knee to ankle the ${side} leg measures ${Math.round(shankMm)} mm in this trial and ${Math.round(standingShankMm)} mm in the static one: these are not the same markers on the same person, or the units differ.`,
    };
  }
  const flexion = rangeOf(curve.flexionDeg);
  if (flexion.most - flexion.least < leastFlexionRangeDeg) {
    return {
      side,
      reason: `The ${side} knee bends by ${Math.round(flexion.most - flexion.least)} degrees; at least ${leastFlexionRangeDeg} are needed to tell.`,
    };
  }
  const { turnDeg, scatterDeg, explained } = estimateAxisTurn(curve);
  const uncertaintyDeg = Math.hypot(scatterDeg, kneesThemselvesDeg);
  const agreement = agreementOf(turnDeg, explained, uncertaintyDeg, found.turnDeg);
  const knee = {
    side,
    frames: count,
    flexionDeg: flexion,
    varusDeg: rangeOf(curve.varusDeg),
    ...regression(curve),
    turnDeg,
    uncertaintyDeg,
    scatterDeg,
    explained,
    at60Deg: -Math.asin(Math.sin(turnDeg / degreesPerRadian) * Math.sin(60 / degreesPerRadian)) * degreesPerRadian,
    staticTurnDeg: found.turnDeg,
    staticMarkers: found.markers,
    agreement,
    series: seriesOf(curve, firstFrame),
  };
  return { ...knee, says: sayKnee(knee), advice: adviceFor(knee, set, standing) };
}

function agreementOf(turnDeg: number, explained: number, uncertaintyDeg: number, staticDeg: number): Agreement {
  const moving = Math.abs(turnDeg) > turnBandsDeg.acceptable;
  const still = Math.abs(staticDeg) > turnBandsDeg.optimal;
  const near = Math.abs(turnDeg - staticDeg) <= 2 * uncertaintyDeg;
  if (moving && explained < leastExplained) return 'other-cause';
  if (moving && still) return near && turnDeg * staticDeg > 0 ? 'agrees' : 'differs';
  if (moving) return 'only-moving';
  return still && !near ? 'only-static' : 'clear';
}

/** Without the outermost hundredth on either side, which one bad frame can make. */
function rangeOf(values: Float64Array): { least: number; most: number } {
  const sorted = values.slice().sort();
  const at = (share: number) => sorted[Math.round(share * (sorted.length - 1))]!;
  return { least: at(0.01), most: at(0.99) };
}

function middle(values: Float64Array): number {
  return values.slice().sort()[values.length >> 1]!;
}

/** Least squares of varus on flexion. */
function regression({ flexionDeg, varusDeg }: KneeCurve): { slope: number; correlation: number } {
  const count = flexionDeg.length;
  const mean = (values: Float64Array) => values.reduce((sum, value) => sum + value, 0) / count;
  const [x, y] = [mean(flexionDeg), mean(varusDeg)];
  let [xx, xy, yy] = [0, 0, 0];
  for (let i = 0; i < count; i++) {
    const [dx, dy] = [flexionDeg[i]! - x, varusDeg[i]! - y];
    xx += dx * dx;
    xy += dx * dy;
    yy += dy * dy;
  }
  return { slope: xy / xx, correlation: yy === 0 ? 0 : xy / Math.sqrt(xx * yy) };
}

function seriesOf({ frames, flexionDeg, varusDeg }: KneeCurve, firstFrame: number): KneeCrosstalk['series'] {
  const count = Math.min(mostInSeries, frames.length);
  return Array.from({ length: count }, (_, sample) => {
    const at = count === 1 ? 0 : Math.round((sample * (frames.length - 1)) / (count - 1));
    return { frame: firstFrame + frames[at]!, flexionDeg: flexionDeg[at]!, varusDeg: varusDeg[at]! };
  });
}
