import type { FrameRun } from '../c3d/read-analog.ts';
import type { Vec3 } from '../geometry/vector.ts';
import type { FootMarkers } from './foot-outline.ts';
import type { PlateLoad } from './plate-loads.ts';

/** Who stands on the plates. Lab axes. */
export interface StandingPerson {
  /** frames in which they stand still */
  readonly run: FrameRun;
  readonly up: Vec3;
  readonly millimetresPerUnit: number;
  readonly feet: readonly FootMarkers[];
  /** recorded; null where it was not */
  readonly massKg: number | null;
  /** They hold on to something or are held. */
  readonly supported: boolean;
}

/** One plate of a standing trial. Lab axes; newtons and millimetres. */
export interface StandingPlate {
  readonly number: number;
  readonly type: number | null;
  /** null where the plate could not be used, `reason` says why */
  readonly load: PlateLoad | null;
  readonly reason: string;
  /** Feet that stand on it, whole or in part. */
  readonly feet: readonly FootMarkers['side'][];
  /** How far the centre of pressure lies outside the one foot on the plate; 0 inside, null where that cannot be said. */
  readonly outsideFootMm: number | null;
}
