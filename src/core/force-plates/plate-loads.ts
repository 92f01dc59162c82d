import { type FrameRun, meanAnalog } from '../c3d/read-analog.ts';
import type { C3dFile } from '../c3d/read-c3d.ts';
import { add, dot, scale, type Vec3 } from '../geometry/vector.ts';
import type { ForcePlate, PlateAxes } from './plate.ts';
import { isOver, plateAxes } from './plate-axes.ts';
import { momentMillimetres, newtonsPer } from './plate-units.ts';
import { type PlateWrench, plateWrench } from './plate-wrench.ts';

/** What pressed on a plate over some frames, on average. Lab axes; newtons and millimetres. */
export interface PlateLoad {
  readonly plate: ForcePlate;
  readonly cornersMm: ForcePlate['corners'];
  /** Force of the plate on the person, so that its upward part carries them. */
  readonly forceN: Vec3;
  readonly upwardN: number;
  /** Where it goes through the surface; null where too little presses to tell. */
  readonly centreMm: Vec3 | null;
  /** The readings of the unloaded plate were taken off. */
  readonly zeroed: boolean;
}

/** What a plate has to be read for. */
export interface LoadQuestion {
  /** frames that count */
  readonly run: FrameRun;
  readonly up: Vec3;
  readonly millimetresPerUnit: number;
  /** places that feet stand on, lab axes, mm */
  readonly feet: readonly Vec3[];
}

/** Beyond any force, moment or place, in whatever units. */
const implausible = 1e9;

/** Less than a small child's foot carries: the place of so little is noise. */
const leastForceN = 20;
/** A plate whose baseline carries this share of the load, and this much, was stood on when its baseline was taken. */
const loadedShare = 0.7;
const loadedN = { underFoot: 30, elsewhere: 100 } as const;

/**
 * Mean load of each plate. The baseline that FORCE_PLATFORM:ZERO names is taken off, unless somebody stood on the plate
 * already then, as in a static trial that begins with the person on the plates: that would take the person's own
 * weight away. A file that stores what the person does to the plate is turned round.
 * @returns for each plate its load, or why it cannot be used: a clause that follows "because"
 */
export function plateLoads(
  file: C3dFile,
  plates: readonly ForcePlate[],
  question: LoadQuestion,
): (PlateLoad | string)[] {
  if (plates.length === 0) return [];
  const loaded = meanAnalog(file, question.run);
  const zero = baselineRun(file);
  const baseline = zero === null ? null : meanAnalog(file, zero);
  return plates.map((plate) => plateLoad(file, plate, loaded, baseline, question));
}

/** A plate in the floor is level; one whose z is further off is described wrongly. */
const leastLevel = 0.7;

function plateLoad(
  file: C3dFile,
  plate: ForcePlate,
  loadedMeans: Float64Array,
  baselineMeans: Float64Array | null,
  { up, millimetresPerUnit, feet }: LoadQuestion,
): PlateLoad | string {
  const axes = plateAxes(plate.corners)!;
  if (Math.abs(dot(axes.z, up)) < leastLevel) return 'its four corners do not lie level';
  const newtons = newtonsPer(file, plate);
  const lengths = momentMillimetres(file, plate, millimetresPerUnit) / millimetresPerUnit;
  const wrenchOf = (values: readonly number[]): PlateWrench => plateWrench(plate, values, lengths);
  const upward = ({ force }: PlateWrench): number => dot(inLab(force, axes), up) * newtons;
  const cornersMm = plate.corners.map((corner) =>
    scale(corner, millimetresPerUnit),
  ) as unknown as PlateLoad['cornersMm'];

  const raw = plate.channels.map((channel) => finite(loadedMeans[channel]!));
  const idle = baselineMeans === null ? null : plate.channels.map((channel) => finite(baselineMeans[channel]!));
  const underFoot = feet.some((foot) => isOver(foot, cornersMm, up));
  const zeroed = idle !== null && !carriesAlready(upward(wrenchOf(idle)), upward(wrenchOf(raw)), underFoot);
  const wrench = wrenchOf(zeroed ? raw.map((value, index) => value - (isForce(plate, index) ? idle[index]! : 0)) : raw);

  const stored = upward(wrench);
  if (![...wrench.force, ...(wrench.centre ?? [0])].every((value) => Math.abs(value) < implausible)) {
    return 'its readings are no forces';
  }
  const turned = stored < -leastForceN ? -1 : 1;
  const pressed = wrench.centre !== null && Math.abs(stored) >= leastForceN;
  return {
    plate,
    cornersMm,
    forceN: scale(inLab(wrench.force, axes), newtons * turned),
    upwardN: stored * turned,
    centreMm: pressed ? scale(add(axes.middle, inLab([...wrench.centre!, 0] as Vec3, axes)), millimetresPerUnit) : null,
    zeroed,
  };
}

function inLab([x, y, z]: Vec3, axes: PlateAxes): Vec3 {
  return add(add(scale(axes.x, x), scale(axes.y, y)), scale(axes.z, z));
}

/** A channel without any finite sample says nothing; the problem shows in the sum. */
function finite(value: number): number {
  return Number.isFinite(value) ? value : 0;
}

/** The place that type 1 gives means nothing on an idle plate, so that it is no baseline. */
function isForce(plate: ForcePlate, index: number): boolean {
  return plate.type !== 1 || index < 3;
}

/** Where no foot is seen, only a force that carries counts: idle plates drift by up to 200 N, mostly the other way. */
function carriesAlready(baselineN: number, loadN: number, underFoot: boolean): boolean {
  const leastN = underFoot ? loadedN.underFoot : loadedN.elsewhere;
  const sameWay = baselineN * loadN > 0 && (underFoot || loadN > 0);
  return sameWay && Math.abs(baselineN) >= leastN && Math.abs(baselineN) >= loadedShare * Math.abs(loadN);
}

/** Frames that FORCE_PLATFORM:ZERO names, counted from 1 over the stored frames; null for none. */
function baselineRun(file: C3dFile): FrameRun | null {
  const [first = 0, last = 0] = (file.groups.get('FORCE_PLATFORM')?.parameters.get('ZERO')?.values ?? []) as number[];
  if (typeof first !== 'number' || typeof last !== 'number' || !(last >= 1)) return null;
  const from = Math.max(1, first);
  return from > last || from > file.frameCount ? null : { first: from - 1, count: last - from + 1 };
}
