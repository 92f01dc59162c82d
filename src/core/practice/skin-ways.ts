import type { BodyDirection, MarkerDefinition, SideOrMiddle } from '../marker-set/marker-set.ts';
import { sayAlong } from '../moves/move-words.ts';

/** A way in which a marker goes, seen from the patient; outward is away from the midline. */
export const ways = ['forward', 'backward', 'up', 'down', 'outward', 'inward', 'left', 'right'] as const;
export type Way = (typeof ways)[number];

/** A movement in body axes, mm. */
export interface BodyShift {
  readonly forward: number;
  readonly left: number;
  readonly up: number;
}

export interface SkinWay {
  readonly way: Way;
  /** "up, toward the head" */
  readonly says: string;
}

const bothWays: Readonly<Record<BodyDirection, readonly [Way, Way]>> = {
  forward: ['forward', 'backward'],
  up: ['up', 'down'],
  outward: ['outward', 'inward'],
  left: ['left', 'right'],
};

/** The ways along the skin in which a marker of this kind is put right, with the words of the marker set. */
export function skinWays(marker: MarkerDefinition): SkinWay[] {
  return marker.slides.flatMap((slide): SkinWay[] => {
    const direction = marker.side === 'midline' && slide === 'outward' ? 'left' : slide;
    const [there, back] = bothWays[direction];
    return [
      { way: there, says: sayAlong(marker, [{ direction: slide, mm: 1 }]) },
      { way: back, says: sayAlong(marker, [{ direction: slide, mm: -1 }]) },
    ];
  });
}

/** How far a movement goes along a way; mm, negative against it. */
export function alongWay(way: Way, side: SideOrMiddle, { forward, left, up }: BodyShift): number {
  const outward = side === 'right' ? -left : left;
  const along: Readonly<Record<Way, number>> = {
    forward,
    backward: -forward,
    up,
    down: -up,
    outward,
    inward: -outward,
    left,
    right: -left,
  };
  return along[way];
}

/** The movement of so many mm along a way. */
export function shiftAlong(way: Way, side: SideOrMiddle, mm: number): BodyShift {
  const along = (one: Way): number => (one === way ? mm : 0);
  const outward = along('outward') - along('inward');
  return {
    forward: along('forward') - along('backward'),
    left: along('left') - along('right') + (side === 'right' ? -outward : outward),
    up: along('up') - along('down'),
  };
}

export function distanceOf({ forward, left, up }: BodyShift): number {
  return Math.hypot(forward, left, up);
}
