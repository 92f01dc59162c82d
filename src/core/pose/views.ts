import { unit } from '../geometry/vector.ts';
import type { ViewDefinition } from '../marker-set/marker-set.ts';
import { degreesPerRadian, outwardSign } from '../rule-kinds/positions.ts';
import type { Session } from '../session/session.ts';
import type { PlacingStep } from './placing-step.ts';

/** How a direction of view is known, and how far it may be off. */
export interface ViewKnowledge {
  readonly from: 'markers' | 'recorded' | 'estimate';
  /** 1 SD of its turn, with what its base may be off. */
  readonly sdDeg: number;
  /** The same without its base. */
  readonly ownSdDeg: number;
}

/** Direction from its two points; else turned outward from its base by what was recorded, or by what is usual. */
export function viewStep(
  view: ViewDefinition,
  slot: number,
  slots: ReadonlyMap<string, number>,
  base: { readonly slot: number; readonly sdDeg: number },
  session: Session,
): { step: PlacingStep; known: ViewKnowledge } {
  const from = slots.get(view.from);
  const to = slots.get(view.to);
  if (from !== undefined && to !== undefined) {
    return {
      known: { from: 'markers', sdDeg: 0, ownSdDeg: 0 },
      step: (x) => {
        const toward = unit(x[to]! - x[from]!, x[to + 1]! - x[from + 1]!, x[to + 2]! - x[from + 2]!);
        for (let axis = 0; axis < 3; axis++) x[slot + axis] = toward[axis]!;
      },
    };
  }
  const recorded = view.recordedAs === null ? null : session.facts[view.recordedAs][view.side];
  const turnRad = (recorded ?? view.estimate.turnDeg) / degreesPerRadian;
  const cosine = Math.cos(turnRad);
  // Outward turns the outer end back: clockwise seen from above on the right, the other way round on the left.
  const sine = outwardSign(view.side) * Math.sin(turnRad);
  const ownSdDeg = recorded === null ? view.estimate.sdDeg : view.recordedSdDeg;
  return {
    known: {
      from: recorded === null ? 'estimate' : 'recorded',
      sdDeg: Math.hypot(ownSdDeg, base.sdDeg),
      ownSdDeg,
    },
    step: (x) => {
      const forward = x[base.slot]!;
      const left = x[base.slot + 1]!;
      const turned = unit(forward * cosine - left * sine, forward * sine + left * cosine, 0);
      for (let axis = 0; axis < 3; axis++) x[slot + axis] = turned[axis]!;
    },
  };
}

/** Turns a direction that is already placed about the vertical, by an angle against the clock seen from above. */
export function turnView(positions: Float64Array, slot: number, turnDeg: number): void {
  const cosine = Math.cos(turnDeg / degreesPerRadian);
  const sine = Math.sin(turnDeg / degreesPerRadian);
  const forward = positions[slot]!;
  const left = positions[slot + 1]!;
  positions[slot] = forward * cosine - left * sine;
  positions[slot + 1] = forward * sine + left * cosine;
}
