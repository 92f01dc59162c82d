import type { C3dFile } from '../c3d/read-c3d.ts';
import { midpoint, type Vec3 } from '../geometry/vector.ts';
import type { Problem } from '../problems/problem.ts';
import { type FootMarkers, outsideFootMm } from './foot-outline.ts';
import { isOver } from './plate-axes.ts';
import { type PlateLoad, plateLoads } from './plate-loads.ts';
import { centreOutside, loadWithoutFoot, massDisagrees, plateUnusable } from './plate-problems.ts';
import { readPlates } from './read-plates.ts';
import type { StandingPerson, StandingPlate } from './standing-person.ts';

/** What the force plates say about a standing person. */
export interface StandingLoad {
  readonly plates: readonly StandingPlate[];
  /** Mass that the plates carry; null unless both feet stand on them. */
  readonly massKg: number | null;
  /** Share of the weight on the right foot; null unless it can be said, and then why not. */
  readonly loadShare: number | null;
  readonly loadShareReason: string;
  readonly problems: readonly Problem[];
}

/** Standard gravity, ISO 80000-3; local gravity differs from it by at most 0.3 %. */
const gravity = 9.80665;
/** A plate that carries this much is stood on: more than any drift after zeroing, less than a small child's foot. */
const stoodOnN = 50;

/**
 * Reads the force plates under a standing person: what they carry together against the recorded mass, how much of it
 * is on each foot, and where under the foot. Null where the file has no plates.
 */
export function standingLoad(file: C3dFile, person: StandingPerson): StandingLoad | null {
  const { plates, unusable } = readPlates(file);
  if (plates.length + unusable.length === 0) return null;
  const { run, up, millimetresPerUnit, feet } = person;
  const question = { run, up, millimetresPerUnit, feet: feet.map(({ heel, forefoot }) => midpoint(heel, forefoot)) };
  const loads = plateLoads(file, plates, question);
  const standing: StandingPlate[] = plates.map((plate, index) => {
    const load = loads[index]!;
    const { number, type } = plate;
    if (typeof load === 'string') return { number, type, load: null, reason: load, feet: [], outsideFootMm: null };
    const on = feet.filter((foot) => touches(foot, load, up));
    const alone = on.length === 1 && isWhollyOn(on[0]!, load, up) ? on[0]! : null;
    const outside = alone && load.centreMm && outsideFootMm(load.centreMm, alone, up);
    return { number, type, load, reason: '', feet: on.map(({ side }) => side), outsideFootMm: outside };
  });
  for (const one of unusable) standing.push({ ...one, load: null, feet: [], outsideFootMm: null });
  standing.sort((a, b) => a.number - b.number);

  const massKg = massCarried(standing, person);
  const problems = [
    ...plateUnusable(standing),
    ...massDisagrees(massKg, person),
    ...loadWithoutFoot(standing.filter(({ load, feet: on }) => load && on.length === 0 && load.upwardN >= stoodOnN)),
    ...centreOutside(standing),
  ];
  const share = shareOfRight(standing, person, problems);
  return {
    plates: standing,
    massKg,
    loadShare: typeof share === 'number' ? share : null,
    loadShareReason: typeof share === 'number' ? '' : share,
    problems,
  };
}

function touches({ heel, forefoot }: FootMarkers, { cornersMm }: PlateLoad, up: Vec3): boolean {
  return isOver(heel, cornersMm, up) || isOver(forefoot, cornersMm, up);
}

function isWhollyOn({ heel, forefoot }: FootMarkers, { cornersMm }: PlateLoad, up: Vec3): boolean {
  return isOver(heel, cornersMm, up) && isOver(forefoot, cornersMm, up);
}

/** What the plates carry together, where each foot's two ends are over plates that could be read. */
function massCarried(standing: readonly StandingPlate[], { feet, up }: StandingPerson): number | null {
  const loads = standing.flatMap(({ load }) => load ?? []);
  const isCarried = (end: Vec3): boolean => loads.some(({ cornersMm }) => isOver(end, cornersMm, up));
  if (feet.length < 2 || !feet.every(({ heel, forefoot }) => isCarried(heel) && isCarried(forefoot))) return null;
  const under = standing.filter((plate) => plate.feet.length > 0);
  return under.reduce((sum, { load }) => sum + load!.upwardN, 0) / gravity;
}

/** The share on the right foot, or why it cannot be said. */
function shareOfRight(
  standing: readonly StandingPlate[],
  { feet, up, supported }: StandingPerson,
  problems: readonly Problem[],
): number | string {
  if (supported) return 'the patient holds on to something or is held';
  const under = standing.filter((plate) => plate.load !== null && plate.feet.length > 0);
  if (feet.length < 2 || under.length === 0) return 'the feet do not stand on plates that can be read';
  const alone = (side: FootMarkers['side']): PlateLoad | null => {
    const own = under.filter((plate) => plate.feet.includes(side));
    const foot = feet.find((one) => one.side === side);
    const [only] = own;
    if (own.length !== 1 || only!.feet.length !== 1 || foot === undefined) return null;
    return isWhollyOn(foot, only!.load!, up) ? only!.load : null;
  };
  const [right, left] = [alone('right'), alone('left')];
  if (right === null || left === null) return 'the feet do not stand whole on a plate each';
  if (problems.some(({ code }) => code === 'plate-position-doubtful')) return 'where the plates lie is in doubt';
  if (problems.some(({ code }) => code === 'plates-against-mass'))
    return 'the plates do not agree with the recorded mass';
  const total = right.upwardN + left.upwardN;
  return total >= stoodOnN ? right.upwardN / total : 'hardly anything presses on the plates';
}
