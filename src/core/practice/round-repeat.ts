import { roundTo } from '../report/rounding.ts';
import type { RepeatedPlacing } from './history.ts';
import type { RepeatedPlacement } from './repeat-placing.ts';
import type { ShownSpread } from './shown-spread.ts';

/** To 0.1 mm, as programs and the history are told. */
export function roundRepeat({ placings, against, markers, landmarks }: RepeatedPlacement): RepeatedPlacement {
  const tenth = (mm: number): number => roundTo(1, mm) ?? 0;
  const told = (mm: number | null): number | null => (mm === null ? null : tenth(mm));
  const shown = ({ forward, up, outward }: ShownSpread): ShownSpread => ({
    forward: told(forward),
    up: told(up),
    outward: told(outward),
  });
  const each = <Of extends { forward: number; up: number; outward: number }>({ forward, up, outward }: Of) => ({
    forward: tenth(forward),
    up: tenth(up),
    outward: tenth(outward),
  });
  return {
    placings,
    against: against.map((one) => one.map((off) => ({ ...off, mm: each(off.mm), distanceMm: tenth(off.distanceMm) }))),
    markers: markers.map((one) => ({ ...one, sdMm: each(one.sdMm), usualMm: shown(one.usualMm) })),
    landmarks: landmarks.map((one) => ({
      ...one,
      forwardMm: told(one.forwardMm),
      upMm: told(one.upMm),
      outwardMm: told(one.outwardMm),
      usualMm: shown(one.usualMm),
    })),
  };
}

/** What goes into the history of a trainee. */
export function repeatLine(
  repeated: RepeatedPlacement,
  of: Pick<RepeatedPlacing, 'trainee' | 'at' | 'markerSet'>,
): RepeatedPlacing {
  const { placings, landmarks } = roundRepeat(repeated);
  return {
    kind: 'repeat',
    ...of,
    placings,
    landmarks: landmarks.map(({ landmark, forwardMm, upMm, outwardMm }) => ({ landmark, forwardMm, upMm, outwardMm })),
  };
}
