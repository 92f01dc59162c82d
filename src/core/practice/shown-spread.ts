import { placementDifferences } from '../compare/placement-differences.ts';
import { add, type Vec3 } from '../geometry/vector.ts';
import type { BodyDirection, MarkerDefinition } from '../marker-set/marker-set.ts';
import { bodyFromPositions } from '../pose/body-from-positions.ts';
import { slidesOf } from '../pose/slides.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import { at } from '../rule-kinds/positions.ts';
import { emptySession } from '../session/session.ts';
import { seededDraw } from './seeded-draw.ts';

export const directions = ['forward', 'up', 'outward'] as const;
export type Direction = (typeof directions)[number];

/** What a comparison shows of a spread in each direction, 1 SD, mm; null where it shows less than half of it, or none. */
export type ShownSpread = Readonly<Record<Direction, number | null>>;

/** Pairs of simulated placings: the figures come out to about one part in twenty. */
const pairs = 100;
const leastShare = 0.5;

/**
 * What the hand that the marker set states would show, were this subject marked anew by it: every marker slips along its
 * skin at once, and the segment that is laid onto itself takes up a part of it. Where markers are few or in a row it takes up
 * nearly all of it; there nothing is told.
 * @returns by marker
 */
export function spreadOfStatedHand(body: StandingBody): ReadonlyMap<string, ShownSpread> {
  const { set, geometry } = body;
  const on = set.markers.filter(({ label }) => geometry.has(label));
  const places = new Map(on.map(({ label }) => [label, at(body.positions, geometry.lookup.point(label))]));
  const draw = seededDraw(1);
  const placed = (): StandingBody => {
    const slipped = new Map(
      on.map((marker) => [marker.label, add(places.get(marker.label)!, slip(body, marker, draw.bell))]),
    );
    return bodyFromPositions(set, emptySession, (label) => slipped.get(label))!;
  };
  const squares = new Map<string, Record<Direction, number>>();
  for (let pair = 0; pair < pairs; pair++) {
    for (const { marker, mm } of placementDifferences(placed(), placed())) {
      const sum = squares.get(marker) ?? { forward: 0, up: 0, outward: 0 };
      for (const along of directions) sum[along] += mm[along] ** 2;
      squares.set(marker, sum);
    }
  }
  return new Map(
    on.flatMap((marker) => {
      const sum = squares.get(marker.label);
      if (sum === undefined) return [];
      // Two placings differ by sqrt 2 of the spread of one.
      const shown = (along: Direction): number | null => {
        const mm = Math.sqrt(sum[along] / pairs / 2);
        return goesAlong(marker, along) && mm >= leastShare * marker.scatterMm[along] ? mm : null;
      };
      return [[marker.label, { forward: shown('forward'), up: shown('up'), outward: shown('outward') }] as const];
    }),
  );
}

function goesAlong({ slides }: MarkerDefinition, along: Direction): boolean {
  return slides.includes(along) || (along === 'outward' && slides.includes('left'));
}

/** Along the skin, each way by its own stated scatter. */
function slip(body: StandingBody, marker: MarkerDefinition, bell: () => number): Vec3 {
  return slidesOf(body, marker).reduce<Vec3>(
    (sum, { direction, vector }) => {
      const mm = marker.scatterMm[componentOf(direction)] * (bell() / cutBellSd);
      return [sum[0] + mm * vector[0], sum[1] + mm * vector[1], sum[2] + mm * vector[2]];
    },
    [0, 0, 0],
  );
}

function componentOf(direction: BodyDirection): Direction {
  return direction === 'left' ? 'outward' : direction;
}

/** Spread of a bell of SD 1 that is cut at 2. */
const cutBellSd = 0.8796;
