import type { MarkerSet, VirtualPointDefinition } from '../marker-set/marker-set.ts';
import { at, outwardSign } from '../rule-kinds/positions.ts';
import { measuredMm } from '../session/measured.ts';
import type { Session } from '../session/session.ts';
import { hipCentre } from './hip-centre.ts';
import { pelvisFrame } from './pelvis-frame.ts';
import type { PlacingStep } from './placing-step.ts';

/** Writes a virtual point at `slot` from the points it is made of; null where one of those is not there. */
export function virtualPointStep(
  point: VirtualPointDefinition,
  slot: number,
  slots: ReadonlyMap<string, number>,
  set: MarkerSet,
  session: Session,
): PlacingStep | null {
  switch (point.construct) {
    case 'midpoint': {
      const of = point.of.map((name) => slots.get(name));
      if (!of.every((source) => source !== undefined)) return null;
      return (x) => {
        for (let axis = 0; axis < 3; axis++) {
          let sum = 0;
          for (const source of of) sum += x[source + axis]!;
          x[slot + axis] = sum / of.length;
        }
      };
    }
    case 'first-of': {
      const source = point.of.map((name) => slots.get(name)).find((candidate) => candidate !== undefined);
      if (source === undefined) return null;
      return (x) => x.copyWithin(slot, source, source + 3);
    }
    case 'along-line': {
      const from = slots.get(point.from);
      const to = slots.get(point.to);
      if (from === undefined || to === undefined) return null;
      return (x) => {
        for (let axis = 0; axis < 3; axis++) {
          x[slot + axis] = x[from + axis]! + point.fraction * (x[to + axis]! - x[from + axis]!);
        }
      };
    }
    case 'hip-centre': {
      const right = slots.get(point.rightAsis);
      const left = slots.get(point.leftAsis);
      const back = slots.get(point.pelvisBack);
      if (right === undefined || left === undefined || back === undefined) return null;
      const legs = [measuredMm(session, 'legLength', 'right'), measuredMm(session, 'legLength', 'left')].filter(
        (leg) => leg !== null,
      );
      const asis = set.markers.find((marker) => marker.label === point.rightAsis);
      const known = {
        legLengthMm: legs.length === 0 ? null : legs.reduce((sum, leg) => sum + leg, 0) / legs.length,
        asisTrochanterDepthMm: measuredMm(session, 'asisTrochanterDepth', point.side),
        markerRadiusMm: (asis?.diameterMm ?? 0) / 2,
      };
      if (hipCentre(point.method, { pelvisWidthMm: 1, pelvisDepthMm: 1, ...known }) === null) return null;
      const outward = outwardSign(point.side);
      return (x) => {
        const r = at(x, right);
        const l = at(x, left);
        const b = at(x, back);
        const frame = pelvisFrame(r, l, b);
        const middle = [(r[0] + l[0]) / 2, (r[1] + l[1]) / 2, (r[2] + l[2]) / 2];
        const offset = hipCentre(point.method, {
          pelvisWidthMm: Math.hypot(l[0] - r[0], l[1] - r[1], l[2] - r[2]),
          pelvisDepthMm: Math.hypot(middle[0]! - b[0], middle[1]! - b[1], middle[2]! - b[2]),
          ...known,
        });
        for (let axis = 0; axis < 3; axis++) {
          x[slot + axis] =
            frame === null || offset === null
              ? Number.NaN
              : middle[axis]! +
                offset.forward * frame.forward[axis]! +
                offset.up * frame.up[axis]! +
                outward * offset.outward * frame.left[axis]!;
        }
      };
    }
  }
}
