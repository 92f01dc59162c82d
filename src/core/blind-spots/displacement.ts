import type { Sensitivity, SensitivityColumn } from '../decision/sensitivity.ts';
import type { Vec3 } from '../geometry/vector.ts';
import type { BodyDirection } from '../marker-set/marker-set.ts';
import type { StandingBody } from '../pose/standing-body.ts';

/** How a marker is off: by itself, with the markers that were set on it, or with the marker of the other side. */
export type DisplacedHow =
  | 'alone'
  | 'with-followers'
  | 'both-sides-alike'
  | 'both-sides-opposite'
  | 'both-sides-with-followers';

export type Way = BodyDirection | 'backward' | 'down' | 'inward' | 'right';

/** One way of being off, by one millimetre. */
export interface Displacement {
  readonly how: DisplacedHow;
  /** The displaced marker, or the right and the left one. */
  readonly markers: readonly string[];
  /** Where it goes; of a pair that goes opposite ways, where the right one goes. */
  readonly toward: Way;
  /** What moves with each mm; body axes. */
  readonly shifts: readonly { readonly marker: number; readonly vector: Vec3 }[];
  /** Columns of the linear model, with their signs; index into those of markers alone, then those with followers. */
  readonly columns: readonly { readonly column: number; readonly sign: number }[];
}

const opposite: Readonly<Record<BodyDirection, Way>> = {
  forward: 'backward',
  up: 'down',
  outward: 'inward',
  left: 'right',
};

/** Every way in which one marker, or a pair, can be off along the skin; markers that only track are nobody's concern. */
export function displacementsOf({ alone, followed }: Sensitivity): Displacement[] {
  const found: Displacement[] = [];
  const isJudged = ({ definition }: SensitivityColumn): boolean => definition.purpose !== 'tracks';
  const add = (how: DisplacedHow, columns: Pair, signs: readonly number[]): void => {
    for (const sign of signs) {
      const { direction } = columns[0]![1];
      found.push({
        how,
        markers: columns.map(([, { definition }]) => definition.label),
        toward: sign > 0 ? direction : opposite[direction],
        shifts: columns.flatMap(([, { shifts }, own]) =>
          shifts.map(({ marker, vector }) => ({ marker, vector: scaled(vector, sign * own) })),
        ),
        columns: columns.map(([column, , own]) => ({ column, sign: sign * own })),
      });
    }
  };
  alone.forEach((column, at) => {
    if (isJudged(column)) add('alone', [[at, column, 1]], [1, -1]);
  });
  followed.forEach((column, at) => {
    if (column.shifts.length > 1) add('with-followers', [[alone.length + at, column, 1]], [1, -1]);
  });
  for (const [columns, first] of [
    [alone, 0],
    [followed, alone.length],
  ] as const) {
    columns.forEach((right, at) => {
      const mirror = columns.findIndex((left) => isMirror(left, right));
      if (mirror < 0 || !isJudged(right)) return;
      const pair = (sign: number): Pair => [
        [first + at, right, 1],
        [first + mirror, columns[mirror]!, sign],
      ];
      if (columns === alone) {
        add('both-sides-alike', pair(1), [1, -1]);
        add('both-sides-opposite', pair(-1), [1]);
      } else if (right.shifts.length > 1) add('both-sides-with-followers', pair(1), [1, -1]);
    });
  }
  return found;
}

/**
 * The two markers that give the body its axes, forward or backward: no way along the skin, but one turns everything that
 * is judged. Without columns, for the weighing does not move them so.
 */
export function turnsOfTheBody({ set, geometry }: StandingBody): Displacement[] {
  return [set.bodyAxes.right, set.bodyAxes.left].flatMap((label): Displacement[] => {
    const marker = set.markers.findIndex((one) => one.label === label);
    if (!geometry.has(label) || set.markers[marker]!.slides.includes('forward')) return [];
    return ([1, -1] as const).map((sign) => ({
      how: 'alone',
      markers: [label],
      toward: sign > 0 ? 'forward' : 'backward',
      shifts: [{ marker, vector: [sign, 0, 0] }],
      columns: [],
    }));
  });
}

/** Column, its index and its sign, for the right and for the left marker. */
type Pair = readonly (readonly [number, SensitivityColumn, number])[];

function isMirror(left: SensitivityColumn, right: SensitivityColumn): boolean {
  return (
    right.definition.side === 'right' &&
    left.definition.label === right.definition.mirror &&
    left.direction === right.direction
  );
}

function scaled([forward, left, up]: Vec3, by: number): Vec3 {
  return [forward * by, left * by, up * by];
}
