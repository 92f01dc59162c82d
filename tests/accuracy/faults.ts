import { SIDES } from '../../sample-trials/landmarks.ts';
import type { SeededRandom } from '../../sample-trials/seeded-random.ts';
import type { MarkerDefinition, MarkerSet } from '../../src/core/marker-set/marker-set.ts';

/** A marker off its place, along its skin. */
export interface Displaced {
  readonly label: string;
  /** Index into the marker's slides. */
  readonly slide: number;
  /** Along that slide, with its sign. */
  readonly mm: number;
  /** Planted before the markers set by eye are put on, which then follow it. */
  readonly before: boolean;
}

/** What is wrong with a person's markers. */
export interface Planted {
  readonly displaced: readonly Displaced[];
  readonly exchanged: readonly [string, string] | null;
}

export const sizesMm = [10, 15, 20, 30, 40] as const;
export const wellMarked: Planted = { displaced: [], exchanged: null };

/** Of a hundred people: well marked, one marker off, two, labels exchanged. */
export const mix = { wellMarked: 0.6, one: 0.3, two: 0.08, exchanged: 0.02 } as const;

/** What is wrong with the next person, by the mix; displaced markers are all off by `sizeMm`. */
export function drawPlanted(set: MarkerSet, sizeMm: number, random: SeededRandom): Planted {
  const at = random.between(0, 1);
  if (at < mix.wellMarked) return wellMarked;
  if (at < mix.wellMarked + mix.one) return { displaced: [drawDisplaced(set, sizeMm, random)], exchanged: null };
  if (at < mix.wellMarked + mix.one + mix.two) {
    const first = drawDisplaced(set, sizeMm, random);
    let second = drawDisplaced(set, sizeMm, random);
    while (second.label === first.label) second = drawDisplaced(set, sizeMm, random);
    return { displaced: [first, second], exchanged: null };
  }
  return { displaced: [], exchanged: drawExchanged(set, random) };
}

/** Evenly over markers, their slides and both ways; a landmark that leads others is off before them in half of the cases. */
function drawDisplaced(set: MarkerSet, sizeMm: number, random: SeededRandom): Displaced {
  const marker = pick(set.markers, random);
  return {
    label: marker.label,
    slide: Math.floor(random.between(0, marker.slides.length)),
    mm: random.between(0, 1) < 0.5 ? sizeMm : -sizeMm,
    before: leads(marker.label) && random.between(0, 1) < 0.5,
  };
}

/** Half right for left of one landmark, half two markers of one leg. */
function drawExchanged(set: MarkerSet, random: SeededRandom): [string, string] {
  const rights = set.markers.filter(({ side }) => side === 'right');
  if (random.between(0, 1) < 0.5) {
    const right = pick(rights, random).label;
    return [right, right.replace(/^R_/, 'L_')];
  }
  const side = pick(SIDES, random) === 'right' ? 'R_' : 'L_';
  const leg = rights.map(({ label }) => label.replace(/^R_/, side)).filter((label) => !/_(ACR|ASIS)$/.test(label));
  const first = pick(leg, random);
  return [
    first,
    pick(
      leg.filter((label) => label !== first),
      random,
    ),
  ];
}

/** Whether wands or heels are set by eye on this marker. */
export function leads(label: string): boolean {
  return /^[RL]_(GT|LE|ME|HF|LM|MM|MET5)$/.test(label);
}

/** All ways of being off that are the same but for the side: landmark, slide, sign, and whether others follow. */
export interface Direction {
  readonly landmark: string;
  readonly slide: number;
  readonly toward: string;
  readonly sign: 1 | -1;
  readonly before: boolean;
  readonly markers: readonly MarkerDefinition[];
}

/** Short names of the ways along a slide; what is outward on a limb is to the left on the midline. */
const ways: Readonly<Record<string, readonly [string, string]>> = {
  forward: ['forward', 'back'],
  up: ['up', 'down'],
  outward: ['out', 'in'],
  left: ['left', 'right'],
};

export function directionsOf(set: MarkerSet): Direction[] {
  const landmarks = [...new Set(set.markers.map(({ label }) => label.replace(/^[RL]_/, '')))];
  return landmarks.flatMap((landmark) => {
    const markers = set.markers.filter(({ label }) => label.replace(/^[RL]_/, '') === landmark);
    return markers[0]!.slides.flatMap((direction, slide) =>
      ([1, -1] as const).flatMap((sign) =>
        [false, true]
          .filter((before) => !before || leads(markers[0]!.label))
          .map((before) => ({
            landmark,
            slide,
            toward:
              ways[markers[0]!.side === 'midline' && direction === 'outward' ? 'left' : direction]![sign > 0 ? 0 : 1],
            sign,
            before,
            markers,
          })),
      ),
    );
  });
}

export function pick<T>(items: readonly T[], random: SeededRandom): T {
  return items[Math.floor(random.between(0, items.length))]!;
}
