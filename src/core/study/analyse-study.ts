import type { LoadedMarkerSet } from '../marker-set/parse-marker-set.ts';
import { toolVersion } from '../version.ts';
import { angleValues, keyOf } from './angle-values.ts';
import { balancedPart } from './balanced-part.ts';
import { costInDegrees, type OfEachSubject } from './cost-in-degrees.ts';
import { distanceValues } from './distance-values.ts';
import { Judge, type Repeatability } from './judge-values.ts';
import { placementValues } from './placement-values.ts';
import { ruleValues } from './rule-values.ts';
import type { StudyCapture } from './study-capture.ts';
import { studyCautions } from './study-cautions.ts';
import { daysOf } from './study-days.ts';
import type { StudyDesign } from './study-design.ts';
import { StudyError } from './study-error.ts';
import type {
  AngleResult,
  CaptureRecord,
  LandmarkResult,
  Measured,
  PlacementResult,
  StudyReport,
} from './study-report.ts';

/** A capture as it was read, or why it cannot be used. */
export type ReadCapture = { readonly sha256: string } & (
  | { readonly capture: StudyCapture }
  | { readonly leftOut: string }
);

/**
 * Works out a repeatability study: placements, distances and joint angles of every capture, and what they differ by within
 * and between assessors.
 * @param read the captures of the design, in its order
 * @throws StudyError where nothing was repeated
 */
export function analyseStudy(design: StudyDesign, set: LoadedMarkerSet, read: readonly ReadCapture[]): StudyReport {
  const used = read.flatMap((one) => ('capture' in one ? [one.capture] : []));
  const whole = balancedPart(used, () => true);
  if (whole === null)
    throw new StudyError(
      '/captures',
      `study, at /captures: found ${used.length} captures that can be used and none of them repeated, expected one subject at least to be marked twice; add captures, or mend those that were left out.`,
    );
  const judge = new Judge();
  const repeats = (values: readonly (number | null)[]): Repeatability | null => {
    const part = values.every((value) => value !== null)
      ? whole
      : balancedPart(used, (index) => values[index] !== null);
    return part === null ? null : judge.judge(used, part, values);
  };
  const byRule = ruleValues(set, used);
  const told = placementValues(set, used).filter(
    ({ marker, direction }) => !byRule.some((one) => one.marker === marker && one.direction === direction),
  );
  const ofEach = firstOfEach(used);
  const placements = [...byRule, ...told.filter(({ isTold }) => isTold)]
    .map(({ isTold, toShift, ...one }): PlacementResult => {
      const judged = withShifts(repeats(one.values), toShift);
      const sem = judged === null ? 0 : worstSem(judged);
      const costs = costInDegrees(ofEach, one.marker, one.segment, one.direction, sem);
      const rule = 'rule' in one ? (one.rule as string) : null;
      return { ...one, rule, called: calledOf(set, one.marker), repeats: judged, costs };
    })
    .sort((a, b) => costOf(b) - costOf(a) || semOf(b) - semOf(a));
  const distances = distanceValues(set, used)
    .map((one) => ({ ...one, repeats: repeats(one.values) }))
    .sort((a, b) => semOf(b) - semOf(a));
  const angles = angleValues(set, used)
    .map(
      (angle): AngleResult => ({ ...angle, repeats: repeats(angle.values), ...fromPlacing(keyOf(angle), placements) }),
    )
    .sort((a, b) => semOf(b) - semOf(a));
  const captures = design.captures.map(({ trial, ...placing }, index): CaptureRecord => {
    const one = read[index]!;
    const { subject, assessor, session } = placing;
    const on = 'capture' in one ? one.capture.on : placing.on;
    return {
      subject,
      assessor,
      session,
      on,
      trial,
      sha256: one.sha256,
      leftOut: 'leftOut' in one ? one.leftOut : null,
    };
  });
  const report: Omit<StudyReport, 'cautions'> = {
    format: 'setsquare-study-report/1',
    tool: { version: toolVersion },
    title: design.title,
    site: design.site,
    markerSet: { name: set.name, version: set.version, sha256: set.sha256 },
    design: {
      subjects: [...new Set(used.map(({ subject }) => subject))],
      assessors: [...new Set(used.map(({ assessor }) => assessor))],
      balanced: whole.size,
      ...daysOf(used),
      skinMarksRemoved: design.skinMarksRemoved,
      nextDue: design.nextDue,
    },
    captures,
    placements,
    notTold: told.filter(({ isTold }) => !isTold).map(({ marker, direction }) => ({ marker, direction })),
    landmarks: landmarksOf(placements, set),
    angles,
    distances,
  };
  const cautions = studyCautions(report, used, whole, distances);
  const inDesign = <Result extends Measured>(results: readonly Result[]): Result[] => inDesignOrder(results, read);
  return {
    ...report,
    placements: inDesign(placements),
    angles: inDesign(angles),
    distances: inDesign(distances),
    cautions,
  };
}

/** Values of the captures that were used, with a gap for each that was left out. */
function inDesignOrder<Result extends Measured>(results: readonly Result[], read: readonly ReadCapture[]): Result[] {
  let used = 0;
  const places = read.map((one) => ('capture' in one ? used++ : null));
  return results.map((result) => ({
    ...result,
    values: places.map((place) => (place === null ? null : result.values[place]!)),
  }));
}

/** Between assessors where the study tells it, else within. */
export function worstSem({ semBetween, semWithin }: Repeatability): number {
  return Math.max(semBetween?.value ?? 0, semWithin?.value ?? 0);
}

function semOf({ repeats }: { readonly repeats: Repeatability | null }): number {
  return repeats === null ? 0 : worstSem(repeats);
}

function costOf({ costs }: PlacementResult): number {
  return costs[0]?.deg ?? 0;
}

/** What an assessor does always is told as it lies on the skin. */
function withShifts(repeats: Repeatability | null, toShift: number): Repeatability | null {
  if (repeats === null) return null;
  return {
    ...repeats,
    offsets: repeats.offsets.map(({ assessor, by }) => ({ assessor, by: by * toShift })),
    furthest: { ...repeats.furthest, by: repeats.furthest.by * toShift },
  };
}

/** What the placements make of an angle's error together, taken as independent. */
function fromPlacing(
  key: string,
  placements: readonly PlacementResult[],
): Pick<AngleResult, 'fromPlacingDeg' | 'mostlyFrom'> {
  const shares = placements.flatMap(({ marker, direction, costs }) => {
    const cost = costs.find((one) => keyOf(one) === key);
    return cost === undefined ? [] : [{ marker, direction, deg: cost.deg }];
  });
  if (shares.length === 0) return { fromPlacingDeg: null, mostlyFrom: null };
  return {
    fromPlacingDeg: Math.hypot(...shares.map(({ deg }) => deg)),
    mostlyFrom: shares.reduce((most, one) => (one.deg > most.deg ? one : most)),
  };
}

function landmarksOf(placements: readonly PlacementResult[], set: LoadedMarkerSet): LandmarkResult[] {
  const markers = [...new Set(placements.map(({ marker }) => marker))];
  return markers
    .map((marker): LandmarkResult => {
      const own = placements.filter((placement) => placement.marker === marker);
      const rms = (of: 'semWithin' | 'semBetween'): number | null => {
        const sems = own.map(({ repeats }) => repeats?.[of]?.value ?? null);
        return sems.some((sem) => sem === null) ? null : Math.hypot(...(sems as number[]));
      };
      const { side } = set.markers.find(({ label }) => label === marker)!;
      const directions = ['forward', 'up', side === 'midline' ? 'left' : 'outward'] as const;
      const without = directions.filter((direction) => !own.some((one) => one.direction === direction));
      return {
        marker,
        called: calledOf(set, marker),
        rmsWithinMm: rms('semWithin'),
        rmsBetweenMm: rms('semBetween'),
        without,
      };
    })
    .sort((a, b) => (b.rmsBetweenMm ?? b.rmsWithinMm ?? 0) - (a.rmsBetweenMm ?? a.rmsWithinMm ?? 0));
}

/** "left thigh wand" */
function calledOf(set: LoadedMarkerSet, label: string): string {
  const { side, called } = set.markers.find((marker) => marker.label === label)!;
  return side === 'midline' ? called : `${side} ${called}`;
}

/** One body of each subject, to try displacements on. */
function firstOfEach(captures: readonly StudyCapture[]): OfEachSubject {
  const subjects = [...new Set(captures.map(({ subject }) => subject))];
  return subjects.map((subject) => captures.find((capture) => capture.subject === subject)!);
}
