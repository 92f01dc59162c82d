import { add, distance, scale, type Vec3 } from '../geometry/vector.ts';
import type { MarkerDefinition, MarkerSet } from '../marker-set/marker-set.ts';
import type { SeededDraw } from './seeded-draw.ts';

/** Where markers stand: lab axes with X forward, Y left, Z up; mm. */
export type MarkerPlaces = ReadonlyMap<string, Vec3>;

/** How much people differ from the reference adult in height, breadth, depth and length of leg; 1 SD as a share. */
const spread = { height: 0.05, breadth: 0.06, depth: 0.06, legs: 0.02 } as const;
/** A careful hand: this share of the scatter that the marker set states for a usual one. */
const careful = 0.5;
/** A marker set by eye follows so many of the palpated ones around it. */
const followed = 2;

/**
 * An invented person with the markers on: the reference adult in other proportions, palpated markers a little off their
 * landmarks as a careful hand leaves them, and those set by eye placed again by the palpated ones around them.
 */
export function makePerson(set: MarkerSet, adult: MarkerPlaces, draw: SeededDraw): Map<string, Vec3> {
  const height = 1 + spread.height * draw.bell();
  const breadth = 1 + spread.breadth * draw.bell();
  const depth = 1 + spread.depth * draw.bell();
  const legs = 1 + spread.legs * draw.bell();
  const hipUp = Math.max(...set.markers.map(({ label, segment }) => (segment === 'pelvis' ? upOf(adult, label) : 0)));
  const built = new Map<string, Vec3>();
  for (const { label } of set.markers) {
    const place = adult.get(label);
    if (place === undefined) continue;
    const up = hipUp > 0 && place[2] > hipUp ? place[2] + hipUp * (legs - 1) : place[2] * legs;
    built.set(label, [place[0] * depth, place[1] * breadth, up * height]);
  }
  return placeMarkers(set, built, draw);
}

function upOf(adult: MarkerPlaces, label: string): number {
  return adult.get(label)?.[2] ?? 0;
}

function placeMarkers(set: MarkerSet, built: MarkerPlaces, draw: SeededDraw): Map<string, Vec3> {
  const slips = new Map<string, Vec3>();
  const on = set.markers.filter(({ label }) => built.has(label));
  const palpated = on.filter(({ placedBy }) => placedBy === 'palpation');
  for (const marker of palpated) slips.set(marker.label, slip(marker, draw));
  for (const marker of on.filter(({ placedBy }) => placedBy === 'eye')) {
    const place = built.get(marker.label)!;
    const near = palpated
      .filter(({ side }) => side === marker.side)
      .map(({ label }) => ({ label, mm: distance(built.get(label)!, place) }))
      .sort((a, b) => a.mm - b.mm)
      .slice(0, followed);
    const sum = near.reduce<Vec3>((total, { label }) => add(total, slips.get(label)!), [0, 0, 0]);
    slips.set(marker.label, scale(sum, 1 / Math.max(1, near.length)));
  }
  return new Map(on.map(({ label }) => [label, add(built.get(label)!, slips.get(label)!)]));
}

function slip({ scatterMm, slides }: MarkerDefinition, draw: SeededDraw): Vec3 {
  const along = (component: 'forward' | 'up' | 'outward'): number => {
    const isOnSkin = slides.includes(component) || (component === 'outward' && slides.includes('left'));
    return isOnSkin ? careful * scatterMm[component] * draw.bell() : 0;
  };
  return [along('forward'), along('outward'), along('up')];
}
