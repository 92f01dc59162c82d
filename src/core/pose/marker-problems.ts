import type { MarkerSet } from '../marker-set/marker-set.ts';
import type { Problem } from '../problems/problem.ts';
import type { StandingPose } from './find-standing-pose.ts';

/** Below this share of visible frames a marker's mean rests on part of the window. */
const leastVisible = 0.9;

/** What is wrong with single markers in the window: missing, hidden at times, leaping, labelled twice; and restlessness. */
export function findMarkerProblems(
  set: MarkerSet,
  points: Int32Array,
  duplicates: readonly number[],
  pose: StandingPose,
): Problem[] {
  const { averaged } = pose;
  const label = (marker: number): string => set.markers[marker]!.label;
  const where = (test: (marker: number) => boolean): number[] =>
    set.markers.flatMap((_, marker) => (test(marker) ? [marker] : []));
  const isRequired = (marker: number): boolean => set.markers[marker]!.presence === 'required';
  const problems: Problem[] = [];

  const unlabelled = where((marker) => isRequired(marker) && points[marker]! < 0);
  if (unlabelled.length > 0) problems.push(missingMarkers(set, unlabelled.map(label)));
  const isUsed = (marker: number): boolean => !Number.isNaN(averaged.means[marker * 3]!);
  const unseen = where((marker) => points[marker]! >= 0 && !isUsed(marker));
  for (const marker of unseen) {
    problems.push({
      code: 'marker-missing',
      severity: isRequired(marker) ? 'error' : 'warning',
      markers: [label(marker)],
      message:
        averaged.visible[marker] === 0
          ? `${label(marker)} is labelled, but not visible in the frames used.`
          : `${label(marker)} is labelled, but visible in less than a tenth of the frames used, too few to trust.`,
      remedy: 'Check that the marker is on and that cameras see it, then capture again.',
    });
  }
  for (const marker of where((m) => isUsed(m) && averaged.visible[m]! < leastVisible)) {
    problems.push({
      code: 'marker-gap',
      severity: 'warning',
      markers: [label(marker)],
      message: `${label(marker)} is hidden in ${Math.min(99, Math.round((1 - averaged.visible[marker]!) * 100))} % of the frames used.`,
      remedy: 'Its mean rests on the other frames; if that is little, capture again.',
    });
  }
  for (const marker of where((m) => averaged.jumps[m]! > 0)) {
    const times = averaged.jumps[marker]!;
    problems.push({
      code: 'marker-jump',
      severity: 'warning',
      markers: [label(marker)],
      message: `${label(marker)} leaps ${times === 1 ? 'once' : `${times} times`} from one frame to the next, further than anybody moves.`,
      remedy: 'Look at its trajectory: the label may sit on another marker for some frames.',
    });
  }
  for (const marker of duplicates) {
    problems.push({
      code: 'labels-duplicate',
      severity: 'warning',
      markers: [label(marker)],
      message: `Several points are labelled ${label(marker)}; the one that is visible most was taken.`,
      remedy: 'Correct the labels and process the trial again.',
    });
  }
  if (pose.restless) problems.push(notStill(pose));
  return problems;
}

export function missingMarkers(set: MarkerSet, labels: readonly string[]): Problem {
  const many = labels.length > 1;
  const required = set.markers.filter(({ presence }) => presence === 'required').length;
  if (labels.length > required / 2) {
    return {
      code: 'marker-missing',
      severity: 'error',
      markers: labels,
      message: `The labels of this trial do not fit the marker set ${set.name}: ${labels.length} of ${required} required ones are not there (${labels.join(', ')}).`,
      remedy:
        'Choose the marker set that the trial was made with, or name the labels of the laboratory as aliases in it.',
    };
  }
  return {
    code: 'marker-missing',
    severity: 'error',
    markers: labels,
    message: `Not among the labels of this trial: ${labels.join(', ')}.`,
    remedy: `Put the marker${many ? 's' : ''} on, or label ${many ? 'them' : 'it'}; where the laboratory writes other labels, name them as aliases in the marker set.`,
  };
}

function notStill({ window, asked }: StandingPose): Problem {
  if (asked) {
    return {
      code: 'not-still',
      severity: 'warning',
      markers: [],
      message: `In the frames asked for the patient does not stand still: the markers sway by ${Math.round(window.swayMm)} mm. Only what holds within one part of the body was checked.`,
      remedy: 'Ask for no frames, and the quietest of the trial are taken.',
    };
  }
  return {
    code: 'not-still',
    severity: 'warning',
    markers: [],
    message: `The patient never stands still: in the quietest frames the markers still sway by ${Math.round(window.swayMm)} mm. Only what holds within one part of the body was checked.`,
    remedy:
      'If the patient can and wants to, capture again after a rest; otherwise record that the patient could not stand still.',
  };
}
