import type { C3dFile } from '../c3d/read-c3d.ts';
import { forEachPointBlock, isValidPoint } from '../c3d/read-points.ts';
import { kneeAngles } from '../gait-model/joint-angles.ts';
import { type LowerBodyModel, readLeg } from '../gait-model/lower-body-model.ts';
import { distance, dot } from '../geometry/vector.ts';
import { outwardSign } from '../rule-kinds/positions.ts';
import type { Side } from '../rule-kinds/rule-kind.ts';

/** Knee of one side over the frames in which its markers are seen. Degrees; directions as ShankDirections. */
export interface KneeCurve {
  /** From 0, in the order stored. */
  readonly frames: Int32Array;
  readonly flexionDeg: Float64Array;
  readonly varusDeg: Float64Array;
  readonly forward: Float64Array;
  readonly outward: Float64Array;
  /** From knee centre to ankle centre, mm. */
  readonly shankMm: Float64Array;
}

/** A minute and a half at 200 a second; of longer trials every second frame, or third, is enough. */
const mostFrames = 20_000;
const framesInBlock = 256;

/**
 * Knee angles of both sides, frame by frame, with the model that the static trial calibrated.
 * @param points index of the point that carries each marker of the set; -1 for none
 * @param millimetres how many mm one unit of the file is
 */
export function kneeCurves(
  file: C3dFile,
  points: Int32Array,
  millimetres: number,
  model: LowerBodyModel,
): Readonly<Record<Side, KneeCurve>> {
  const every = Math.ceil(file.frameCount / mostFrames) || 1;
  const most = Math.ceil(file.frameCount / every);
  const [right, left] = [new CurveInTheMaking('right', most), new CurveInTheMaking('left', most)];
  const markers = new Float64Array(points.length * 3);
  forEachPointBlock(file, framesInBlock, (values, first, count) => {
    for (let frame = first; frame < first + count; frame++) {
      if (frame % every !== 0) continue;
      placeMarkers(values, (frame - first) * file.pointCount * 4, points, millimetres, markers);
      right.add(frame, model, markers);
      left.add(frame, model, markers);
    }
  });
  return { right: right.curve(), left: left.curve() };
}

function placeMarkers(
  values: Float32Array,
  start: number,
  points: Int32Array,
  millimetres: number,
  markers: Float64Array,
): void {
  points.forEach((point, marker) => {
    const at = start + point * 4;
    const seen = point >= 0 && isValidPoint(values, at);
    for (let axis = 0; axis < 3; axis++) {
      markers[marker * 3 + axis] = seen ? values[at + axis]! * millimetres : Number.NaN;
    }
  });
}

class CurveInTheMaking {
  private readonly side: Side;
  private readonly frames: Int32Array;
  private readonly columns: Readonly<Record<Exclude<keyof KneeCurve, 'frames'>, Float64Array>>;
  private count = 0;

  constructor(side: Side, most: number) {
    this.side = side;
    this.frames = new Int32Array(most);
    const column = () => new Float64Array(most);
    this.columns = {
      flexionDeg: column(),
      varusDeg: column(),
      forward: column(),
      outward: column(),
      shankMm: column(),
    };
  }

  add(frame: number, model: LowerBodyModel, markers: Float64Array): void {
    const leg = readLeg(model, this.side, markers);
    if (leg === null) return;
    const { flexion, varus } = kneeAngles(leg.thigh, leg.shank, this.side);
    const { flexionDeg, varusDeg, forward, outward, shankMm } = this.columns;
    flexionDeg[this.count] = flexion;
    varusDeg[this.count] = varus;
    forward[this.count] = dot(leg.shank.up, leg.thigh.forward);
    outward[this.count] = outwardSign(this.side) * dot(leg.shank.up, leg.thigh.left);
    shankMm[this.count] = distance(leg.knee, leg.ankle);
    this.frames[this.count] = frame;
    this.count += 1;
  }

  curve(): KneeCurve {
    const { flexionDeg, varusDeg, forward, outward, shankMm } = this.columns;
    const cut = (column: Float64Array) => column.subarray(0, this.count);
    return {
      frames: this.frames.subarray(0, this.count),
      flexionDeg: cut(flexionDeg),
      varusDeg: cut(varusDeg),
      forward: cut(forward),
      outward: cut(outward),
      shankMm: cut(shankMm),
    };
  }
}
