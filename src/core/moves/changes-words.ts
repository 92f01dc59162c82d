import type { DataChanges, ErrorBand } from '../gait-model/data-changes.ts';
import { isEstimated, type ModelMeasurement } from '../gait-model/model-measurements.ts';
import type { JointAngle } from '../gait-model/standing-angles.ts';
import type { MarkerDefinition } from '../marker-set/marker-set.ts';

const mostAngles = 3;
/** A change under this is not worth a word beside the patient. */
const leastSaidDeg = 0.5;
/** Both sides differing by less than this are told as one. */
const alikeDeg = 0.3;

/** "Hip rotation 6.9°, knee rotation 4.8°; varus-valgus at 60° of knee flexion 6.0°: over 5 degrees." */
export function sayChanges(changes: DataChanges, marker: MarkerDefinition): string {
  if (changes.largestDeg === 0) {
    return marker.purpose === 'guides'
      ? 'No joint angle is read from this marker; others are placed by it.'
      : 'No joint angle in standing.';
  }
  const told = changes.angles.filter(({ deg }, index) => index === 0 || Math.abs(deg) >= leastSaidDeg);
  const angles = told.filter((angle) => !isTold(angle, told)).slice(0, mostAngles);
  const words = angles.map((angle) => sayAngle(angle, told, marker));
  const leak = changes.crossTalk
    .filter(({ varusDeg }) => Math.abs(varusDeg) >= leastSaidDeg)
    .sort((a, b) => Math.abs(b.varusDeg) - Math.abs(a.varusDeg))
    .slice(0, 1)
    .map(({ atFlexionDeg, varusDeg }) => `varus-valgus at ${atFlexionDeg}° of knee flexion ${degrees(varusDeg)}`);
  const text = [words.join(', '), ...leak].filter((part) => part !== '').join('; ');
  return `${text}: ${bandWords[changes.band]}.${sayEstimated(changes.estimated)}`;
}

/** How a step's own share reads against the published bands of a laboratory's total error. */
export const bandWords: Readonly<Record<ErrorBand, string>> = {
  'under-2': 'under 2 degrees',
  '2-to-5': '2 to 5 degrees',
  'over-5': 'over 5 degrees',
};

/** Said once wherever the bands show. */
export const bandsAreTotals =
  'The bands (under 2 degrees acceptable, 2 to 5 reasonable, over 5 a concern) are for a laboratory\'s total error; one marker\'s share under 2 is not "fine".';

/** " Knee width estimated from stature." where a length of the model was not measured on the patient; else empty. */
export function sayEstimated(estimated: readonly ModelMeasurement[]): string {
  const guesses = estimated.filter(isEstimated);
  if (guesses.length === 0) return '';
  const names = [...new Set(guesses.map(({ measure }) => measureWords[measure]))];
  const all = names.length === 1 ? names[0]! : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
  const from = guesses.some((one) => one.from === 'shank') ? 'the length of the shank' : 'stature';
  return ` ${all[0]!.toUpperCase()}${all.slice(1)} estimated from ${from}.`;
}

/** Lengths of the model as they are told. */
export const measureWords: Readonly<Record<ModelMeasurement['measure'], string>> = {
  kneeDiameter: 'knee width',
  ankleDiameter: 'ankle width',
  legLength: 'leg length',
  asisTrochanterDepth: 'ASIS to trochanter depth',
};

/** Whether the other side changes alike and is told before it. */
function isTold(angle: JointAngle, told: readonly JointAngle[]): boolean {
  const other = alikeOn(angle, told);
  return other !== undefined && told.indexOf(other) < told.indexOf(angle);
}

/** The same angle of the other leg, where it changes the same way by as much. */
function alikeOn({ joint, motion, side, deg }: JointAngle, told: readonly JointAngle[]): JointAngle | undefined {
  return told.find(
    (one) => one.joint === joint && one.motion === motion && one.side !== side && Math.abs(one.deg - deg) < alikeDeg,
  );
}

/** The side is said where it is not the marker's own. */
function sayAngle(angle: JointAngle, told: readonly JointAngle[], marker: MarkerDefinition): string {
  const { side, deg } = angle;
  const name = angleName(angle);
  if (alikeOn(angle, told) !== undefined) return `${name} ${degrees(deg)} on both sides`;
  return `${side === marker.side || side === 'midline' ? '' : `${side} `}${name} ${degrees(deg)}`;
}

/** "pelvic tilt", "hip rotation" */
export function angleName({ joint, motion }: JointAngle): string {
  return angleInWords(joint, motion);
}

/** The same from its two names. */
export function angleInWords(joint: string, motion: string): string {
  return motionWords[`${joint}.${motion}`] ?? `${joint} ${motion}`;
}

const motionWords: Readonly<Record<string, string>> = {
  'pelvis.tilt': 'pelvic tilt',
  'pelvis.obliquity': 'pelvic obliquity',
  'pelvis.rotation': 'pelvic rotation',
  'knee.varus': 'knee varus-valgus',
  'ankle.rotation': 'foot rotation',
  'foot.progression': 'foot progression',
};

function degrees(deg: number): string {
  return `${Math.abs(deg).toFixed(1)}°`;
}
