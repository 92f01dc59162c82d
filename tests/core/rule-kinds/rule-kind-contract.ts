import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../../../src/core/geometry/vector.ts';
import type { Bounds } from '../../../src/core/rule-kinds/allowed.ts';
import { outwardSign } from '../../../src/core/rule-kinds/positions.ts';
import type { Lookup, RuleGeometry, RuleKind, RuleSpec } from '../../../src/core/rule-kinds/rule-kind.ts';

/** Where things are for one test: body axes (forward, left, up), mm; directions as unit vectors. */
export interface Place {
  readonly points: Readonly<Record<string, Vec3>>;
  readonly views?: Readonly<Record<string, Vec3>>;
  /** Axes of segments by `segment/axis`; the body's own are always there. */
  readonly axes?: Readonly<Record<string, Vec3>>;
  readonly statureMm?: number;
}

export interface Laid {
  readonly positions: Float64Array;
  readonly lookup: Lookup;
  /** Names that were asked for, in order. */
  readonly asked: { readonly points: string[]; readonly views: string[] };
}

export function lay(place: Place): Laid {
  const numbers: number[] = [];
  const slots = new Map<string, number>();
  const put = (name: string, vector: Vec3): void => {
    slots.set(name, numbers.length);
    numbers.push(...vector);
  };
  for (const [name, point] of Object.entries(place.points)) put(`point ${name}`, point);
  for (const [name, view] of Object.entries(place.views ?? {})) put(`view ${name}`, view);
  for (const [name, axis] of Object.entries(place.axes ?? {})) put(`axis ${name}`, axis);
  for (const side of ['right', 'left', 'midline', 'both'] as const) {
    put(`axis ${side}/forward`, [1, 0, 0]);
    put(`axis ${side}/up`, [0, 0, 1]);
    put(`axis ${side}/outward`, [0, outwardSign(side), 0]);
  }
  const asked = { points: [] as string[], views: [] as string[] };
  const slot = (name: string): number => {
    const found = slots.get(name);
    if (found === undefined) throw new RangeError(`This test laid out no ${name}.`);
    return found;
  };
  return {
    positions: Float64Array.from(numbers),
    asked,
    lookup: {
      point: (name) => {
        asked.points.push(name);
        return slot(`point ${name}`);
      },
      view: (name) => {
        asked.views.push(name);
        return slot(`view ${name}`);
      },
      axis: (segment, axis, side) => slot(segment === null ? `axis ${side}/${axis}` : `axis ${segment}/${axis}`),
      statureMm: place.statureMm ?? null,
    },
  };
}

export interface Measured {
  readonly value: number;
  readonly bounds: Bounds;
  readonly residual: number;
  readonly geometry: RuleGeometry;
}

export function measure<Spec extends RuleSpec, Parameters>(
  kind: RuleKind<Spec, Parameters>,
  spec: Spec,
  place: Place,
): Measured {
  const { positions, lookup } = lay(place);
  const parameters = kind.resolve(spec, lookup);
  const { value, bounds, geometry } = kind.describe(positions, parameters);
  return { value, bounds, geometry, residual: kind.residual(positions, parameters) };
}

/** The same place seen in a mirror: left becomes minus left, and right names become left ones. */
export function mirrored(place: Place): Place {
  const flip = (record: Readonly<Record<string, Vec3>> = {}): Record<string, Vec3> =>
    Object.fromEntries(
      Object.entries(record).map(([name, [forward, left, up]]) => [otherSide(name), [forward, -left, up] as Vec3]),
    );
  return { ...place, points: flip(place.points), views: flip(place.views), axes: flip(place.axes) };
}

export function otherSide(name: string): string {
  if (name.startsWith('R_')) return `L_${name.slice(2)}`;
  if (name.startsWith('L_')) return `R_${name.slice(2)}`;
  return name;
}

/** The same place with one point shifted. */
export function shifted(place: Place, name: string, by: Vec3): Place {
  const from = place.points[name]!;
  return {
    ...place,
    points: { ...place.points, [name]: [from[0] + by[0], from[1] + by[1], from[2] + by[2]] },
  };
}

export const metresAway = fc.double({ min: -2000, max: 2000, noNaN: true });
export const nearby = fc.double({ min: -40, max: 40, noNaN: true });

/** What every kind owes to those who call it, on one place in which it means something. */
export function keepsTheContract<Spec extends RuleSpec, Parameters>(
  kind: RuleKind<Spec, Parameters>,
  spec: Spec,
  place: Place,
): void {
  describe(`contract of ${kind.kind}`, () => {
    it('names all that it needs, and asks for nothing else', () => {
      const { lookup, asked } = lay(place);
      kind.resolve(spec, lookup);
      const needs = kind.needs(spec);
      expect(new Set(asked.points)).toEqual(new Set(needs.points));
      expect(new Set(asked.views)).toEqual(new Set(needs.views));
      expect(kind.kind).toBe(spec.kind);
    });

    it('gives as residual the value minus the reference, wherever the points are', () => {
      const { positions, lookup } = lay(place);
      const parameters = kind.resolve(spec, lookup);
      const size = Object.keys(place.points).length * 3;
      fc.assert(
        fc.property(fc.array(nearby, { minLength: size, maxLength: size }), (moves) => {
          const moved = positions.map((number, index) => number + (moves[index] ?? 0));
          const { value, bounds } = kind.describe(moved, parameters);
          expect(kind.residual(moved, parameters)).toBeCloseTo(value - bounds.reference, 9);
        }),
      );
    });

    it('does not depend on where the body stands', () => {
      const { value } = measure(kind, spec, place);
      fc.assert(
        fc.property(fc.tuple(metresAway, metresAway, metresAway), (by) => {
          const elsewhere = Object.keys(place.points).reduce((moved, name) => shifted(moved, name, by), place);
          expect(measure(kind, spec, elsewhere).value).toBeCloseTo(value, 7);
        }),
      );
    });

    it('leaves the positions as they are', () => {
      const { positions, lookup } = lay(place);
      const before = positions.slice();
      const parameters = kind.resolve(spec, lookup);
      kind.residual(positions, parameters);
      kind.describe(positions, parameters);
      expect(positions).toEqual(before);
    });

    it('says NaN where nothing is visible, and throws nothing', () => {
      const { positions, lookup } = lay(place);
      const parameters = kind.resolve(spec, lookup);
      positions.fill(Number.NaN);
      expect(kind.residual(positions, parameters)).toBeNaN();
      expect(kind.describe(positions, parameters).value).toBeNaN();
    });

    it('allocates nothing when it is asked for the residual', () => {
      const { positions, lookup } = lay(place);
      const parameters = kind.resolve(spec, lookup);
      // Numbers that pass from one function to another may be boxed, 16 bytes each, and no kind has more than four of
      // those; a list of three numbers, or a call of Math.hypot, takes more than 80.
      const most = 72;
      const quiet = bytesPerCall(() => kind.residual(positions, parameters), most, 30);
      // The measurement itself must be able to see an allocation: describing the rule makes several objects.
      const held: unknown[] = [null];
      const loud = bytesPerCall(
        () => {
          held[0] = kind.describe(positions, parameters);
          return 1;
        },
        most,
        3,
      );
      expect(loud).toBeGreaterThan(160);
      expect(quiet).toBeLessThan(most);
    });
  });
}

setFlagsFromString('--expose-gc');
const collectGarbage = runInNewContext('gc') as () => void;

/**
 * Growth of the heap for one call, bytes: the least of many rounds, so that neither the allocations of others nor the
 * wait for the optimising compiler count. Ends early when a round takes less than `enough`.
 */
function bytesPerCall(call: () => number, enough: number, rounds: number): number {
  const calls = 2000;
  let sum = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let round = 0; round < rounds && least >= enough; round++) {
    for (let i = 0; i < 10_000; i++) sum += call();
    collectGarbage();
    const before = process.memoryUsage().heapUsed;
    for (let i = 0; i < calls; i++) sum += call();
    const grown = process.memoryUsage().heapUsed - before;
    if (grown >= 0) least = Math.min(least, grown / calls);
  }
  return Number.isNaN(sum) ? Number.NaN : least;
}
