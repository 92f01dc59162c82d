import { degreesPerRadian } from '../rule-kinds/positions.ts';

/**
 * The long axis of the shank, from ankle to knee, in the axes of the thigh, over the frames of a movement: `forward` and
 * `outward` parts of a unit vector. `outward` is the sine of varus, `forward` is what flexion moves.
 */
export interface ShankDirections {
  readonly forward: Float64Array;
  readonly outward: Float64Array;
}

/** By how much the marked knee axis is turned from the one about which the knee bends. Degrees, outward positive. */
export interface AxisTurn {
  readonly turnDeg: number;
  /** 1 SD of the turn from one part of the movement to another. */
  readonly scatterDeg: number;
  /** Share of the variance of the outward part that the turn takes away, 0 to 1. */
  readonly explained: number;
}

/** Parts of the movement that are left out one after the other. */
const parts = 8;

/**
 * The turn about the thigh's long axis after which varus-valgus varies least while the knee bends, the criterion of
 * Baker, Finney and Orr (1999, Hum Mov Sci 18:655-667). A knee that bends about an axis which the marked one is turned
 * from shows part of its flexion as varus-valgus, in proportion; the turn that undoes it is the direction of the first
 * principal component of the two, as Baudet et al. (2014, PLOS ONE 9:e102098) take it from the angles themselves.
 *
 * The scatter is that of leaving out one eighth of the movement after another (jackknife over contiguous parts), since
 * frames that follow each other are no independent readings.
 */
export function estimateAxisTurn(directions: ShankDirections): AxisTurn {
  const count = directions.forward.length;
  const whole = turnWithout(directions, 0, 0);
  const left = Array.from({ length: parts }, (_, part) =>
    turnWithout(directions, Math.floor((part * count) / parts), Math.floor(((part + 1) * count) / parts)),
  );
  const mean = left.reduce((sum, { turnRad }) => sum + turnRad, 0) / parts;
  const squares = left.reduce((sum, { turnRad }) => sum + (turnRad - mean) ** 2, 0);
  return {
    turnDeg: whole.turnRad * degreesPerRadian,
    scatterDeg: Math.sqrt(((parts - 1) / parts) * squares) * degreesPerRadian,
    explained: whole.explained,
  };
}

/** From all frames but those from `from` up to `to`. */
function turnWithout({ forward, outward }: ShankDirections, from: number, to: number) {
  let count = 0;
  let [f, o, ff, fo, oo] = [0, 0, 0, 0, 0];
  for (let i = 0; i < forward.length; i++) {
    if (i >= from && i < to) continue;
    const [x, y] = [forward[i]!, outward[i]!];
    count += 1;
    f += x;
    o += y;
    ff += x * x;
    fo += x * y;
    oo += y * y;
  }
  const varianceForward = ff / count - (f / count) ** 2;
  const varianceOutward = oo / count - (o / count) ** 2;
  const covariance = fo / count - (f * o) / count ** 2;
  const turnRad = -0.5 * Math.atan2(2 * covariance, varianceForward - varianceOutward);
  // Variance of the outward part after the axes are turned back.
  const [cosine, sine] = [Math.cos(turnRad), Math.sin(turnRad)];
  const rest = varianceOutward * cosine ** 2 + 2 * covariance * sine * cosine + varianceForward * sine ** 2;
  const explained = varianceOutward > 0 ? Math.max(0, 1 - rest / varianceOutward) : 0;
  return { turnRad, explained };
}
