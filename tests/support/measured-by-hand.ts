import type { MarkerPositions } from '../../sample-trials/landmarks.ts';
import type { Measure } from '../../src/core/marker-set/measure.ts';
import type { Side } from '../../src/core/rule-kinds/rule-kind.ts';
import { emptySession, type Measurement, type Session } from '../../src/core/session/session.ts';

/** What the markers add to a measurement where all sits right: radius 7 mm, skin and soft tissue, mm. */
const added = { pelvisWidth: 23.8, kneeDiameter: 19, ankleDiameter: 17, asisTrochanterDepth: 12 } as const;
/** The pelvis of the regression is tilted by 18 degrees against the plane of ASIS and sacral marker. */
const attitude = (18 * Math.PI) / 180;

type Name = readonly [Measure, Side | null];

/**
 * Hand measurements as somebody who makes no mistake reads them on a person whose markers all sit right (body axes, mm).
 * Written from the anatomy, not from the code that compares.
 * @param statureMm as the person was described
 */
export function measuredByHand(positions: MarkerPositions, statureMm: number): Map<Name, number> {
  const at = (label: string): readonly number[] => positions.get(label)!;
  const between = (a: string, b: string): number => Math.hypot(...at(a).map((value, axis) => value - at(b)[axis]!));
  const readings = new Map<Name, number>([
    [['stature', null], statureMm],
    [['pelvisWidth', null], between('R_ASIS', 'L_ASIS') - added.pelvisWidth],
  ]);
  for (const side of ['right', 'left'] as const) {
    const p = side === 'right' ? 'R_' : 'L_';
    readings.set(['legLength', side], between(`${p}ASIS`, `${p}LE`) + between(`${p}LE`, `${p}LM`));
    readings.set(['asisTrochanterDepth', side], depth(positions, p) - added.asisTrochanterDepth);
    if (positions.has(`${p}ME`)) {
      readings.set(['kneeDiameter', side], between(`${p}LE`, `${p}ME`) - added.kneeDiameter);
      readings.set(['ankleDiameter', side], between(`${p}LM`, `${p}MM`) - added.ankleDiameter);
    }
  }
  return readings;
}

/** In the sagittal plane: how far the trochanter lies behind the ASIS when the pelvis is rolled into the attitude. */
function depth(positions: MarkerPositions, p: string): number {
  const at = (label: string): readonly number[] => positions.get(label)!;
  const front = [0, 2].map((axis) => (at('R_ASIS')[axis]! + at('L_ASIS')[axis]!) / 2);
  // A pelvis whose ASIS are level: its tilt is that of the line from the sacral marker to the middle of the ASIS.
  const tilt = Math.atan2(at('S1')[2]! - front[1]!, front[0]! - at('S1')[0]!);
  const turn = attitude - tilt;
  const ahead = at(`${p}ASIS`)[0]! - at(`${p}GT`)[0]!;
  const above = at(`${p}ASIS`)[2]! - at(`${p}GT`)[2]!;
  return ahead * Math.cos(turn) + above * Math.sin(turn);
}

/** A session with these readings; whole millimetres, as they are written down. */
export function sheetOf(readings: ReadonlyMap<Name, number>, about: Partial<Session> = {}): Session {
  const measurements = [...readings].map(
    ([[measure, side], mm]): Measurement => ({ measure, side, value: Math.round(mm), unit: 'mm' }),
  );
  return { ...emptySession, subject: { code: 'MR-01', ageYears: 35, sex: 'female' }, ...about, measurements };
}

/** The same with one reading wrong by so much, mm. */
export function misread(
  readings: ReadonlyMap<Name, number>,
  measure: Measure,
  side: Side | null,
  byMm: number,
): Map<Name, number> {
  return new Map([...readings].map(([name, mm]) => [name, name[0] === measure && name[1] === side ? mm + byMm : mm]));
}
