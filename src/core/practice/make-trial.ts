import { checkTrial } from '../check-trial.ts';
import type { Norms } from '../decision/norms.ts';
import { add, scale, type Vec3 } from '../geometry/vector.ts';
import type { MarkerDefinition, MarkerSet } from '../marker-set/marker-set.ts';
import type { LoadedMarkerSet } from '../marker-set/parse-marker-set.ts';
import { bodyFromPositions } from '../pose/body-from-positions.ts';
import { slidesOf } from '../pose/slides.ts';
import type { Report } from '../report/report.ts';
import { emptySession } from '../session/session.ts';
import { keyOfPlanted, keyOfReport, type PlantedFault } from './answer-key.ts';
import { type MarkerPlaces, makePerson } from './make-person.ts';
import type { PracticeTrial } from './practice-trial.ts';
import { recordStill } from './record-still.ts';
import type { SeededDraw } from './seeded-draw.ts';

export interface Workshop {
  readonly set: LoadedMarkerSet;
  readonly norms: Norms | null;
  /** Where the markers of the reference adult stand. */
  readonly adult: MarkerPlaces;
}

/** How far a planted marker is off: what is set by eye, and what is palpated; mm. */
const sizesMm = { eye: [12, 26], palpation: [20, 48] } as const;
/** People and faults that are tried before a fault that geometry shows is given up. */
const mostTries = 40;

/**
 * A practice trial of an invented person, with one marker off or none.
 *
 * Faults that no check sees are drawn again: on a figure no eye sees them either. What such faults are is told by
 * `findBlindSpots`.
 * @param weight how much a landmark (by its stem) is to be practised; null for a trial with nothing off
 */
export function makeTrial(shop: Workshop, draw: SeededDraw, weight: ((stem: string) => number) | null): PracticeTrial {
  for (let tried = 1; ; tried++) {
    const person = makePerson(shop.set, shop.adult, draw);
    const fault = weight === null ? null : plantedFault(shop.set, person, draw, weight);
    const places = fault === null ? person : displaced(person, fault);
    const report = checkMade(shop, recordStill(places, draw));
    if (fault === null || tried === mostTries || isNamed(fault, report)) {
      return { report, key: keyOfPlanted(fault, report, shop.set), id: report.trial.sha256 };
    }
  }
}

/** Whether the set's required markers all have a place on the reference adult. */
export function canMake({ set, adult }: Pick<Workshop, 'set' | 'adult'>): boolean {
  return set.markers.every(({ label, presence }) => presence !== 'required' || adult.has(label));
}

function plantedFault(
  set: MarkerSet,
  person: MarkerPlaces,
  draw: SeededDraw,
  weight: (stem: string) => number,
): PlantedFault {
  const body = bodyFromPositions(set, emptySession, (label) => person.get(label))!;
  const stems = [...new Set(set.markers.filter((marker) => isPractised(marker, person)).map(({ stem }) => stem))];
  const stem = draw.pick(stems, weight);
  const marker = draw.pick(set.markers.filter((one) => one.stem === stem && isPractised(one, person)));
  const { vector } = draw.pick(slidesOf(body, marker));
  const [least, most] = sizesMm[marker.placedBy];
  const mm = Math.round(draw.between(least, most)) * (draw.unit() < 0.5 ? -1 : 1);
  const [forward, left, up] = scale(vector, mm);
  return { marker: marker.label, shift: { forward, left, up } };
}

/** A marker that only tracks may stand anywhere. */
function isPractised({ label, purpose }: MarkerDefinition, person: MarkerPlaces): boolean {
  return purpose !== 'tracks' && person.has(label);
}

function displaced(person: MarkerPlaces, { marker, shift }: PlantedFault): MarkerPlaces {
  const by: Vec3 = [shift.forward, shift.left, shift.up];
  return new Map(person).set(marker, add(person.get(marker)!, by));
}

function checkMade({ set, norms }: Workshop, bytes: Uint8Array): Report {
  return checkTrial(bytes, set, emptySession, { path: '', sha256: '' }, norms);
}

function isNamed({ marker }: PlantedFault, report: Report): boolean {
  return keyOfReport(report).expected.some(({ accepted }) => accepted.some((one) => one.marker === marker));
}
