import { median } from '../geometry/statistics.ts';
import type { VarianceComponents } from '../repeatability/study-components.ts';
import { counted } from '../report/counted.ts';
import type { BalancedPart } from './balanced-part.ts';
import type { Placing, StudyCapture } from './study-capture.ts';
import type { DistanceResult, Measured, StudyReport } from './study-report.ts';

/** Fewer subjects than this, and an ICC is a figure without a meaning: its interval is as wide as the words. */
export const fewestForIcc = 10;
/** Sizes of one body differ by less, however the markers are placed; share. */
const otherSize = 0.04;

/** What has to be known before a figure is believed; each a sentence. */
export function studyCautions(
  report: Omit<StudyReport, 'cautions'>,
  captures: readonly StudyCapture[],
  whole: BalancedPart,
  distances: readonly DistanceResult[],
): string[] {
  return [
    ...leftOut(report),
    ...unbalanced(captures, whole),
    ...otherBodies(captures, distances),
    ...restless(captures),
    ...smallNumbers(report),
    ...belowNothing(report),
  ];
}

/** "S2 by BN, session 1" */
export function placingName({ subject, assessor, session }: Placing): string {
  return `${subject} by ${assessor}, session ${session}`;
}

function leftOut({ captures }: Omit<StudyReport, 'cautions'>): string[] {
  return captures.flatMap((capture) =>
    capture.leftOut === null ? [] : [`Left out: ${placingName(capture)}: ${capture.leftOut}`],
  );
}

function unbalanced(captures: readonly StudyCapture[], { captures: cells, size }: BalancedPart): string[] {
  const used = new Set(cells.flat(2));
  const unused = captures.filter((_, index) => !used.has(index));
  if (unused.length === 0) return [];
  const { subjects, assessors, sessions } = size;
  return [
    `Not every assessor marked every subject equally often. The figures rest on the largest part in which they did: ${counted(subjects, 'subject')}, ${counted(assessors, 'assessor')}, ${counted(sessions, 'session')} each. Without: ${unused.map(placingName).join('; ')}.`,
  ];
}

/** A trial of another person in a row of the design would drown every figure. */
function otherBodies(captures: readonly StudyCapture[], distances: readonly DistanceResult[]): string[] {
  return captures.flatMap((capture, index) => {
    const ratios = distances.flatMap(({ values }) => {
      const own = captures.flatMap(({ subject }, at) =>
        subject === capture.subject && at !== index && values[at] !== null ? [values[at]!] : [],
      );
      const value = values[index] ?? null;
      return value === null || own.length === 0 ? [] : [value / median(Float64Array.from(own), own.length)];
    });
    if (ratios.length < 6) return [];
    const off = median(Float64Array.from(ratios), ratios.length) - 1;
    if (Math.abs(off) < otherSize) return [];
    return [
      `${placingName(capture)}: its distances are ${Math.round(Math.abs(off) * 100)} % ${off > 0 ? 'larger' : 'smaller'} than in the other captures of ${capture.subject}. Look whether it is the same person.`,
    ];
  });
}

function restless(captures: readonly StudyCapture[]): string[] {
  const some = captures.filter(({ body }) => body.restless);
  return some.length === 0
    ? []
    : [`Never still, so that joint angles hold the movement as well: ${some.map(placingName).join('; ')}.`];
}

function smallNumbers({ design: { balanced } }: Omit<StudyReport, 'cautions'>): string[] {
  const { subjects, assessors, sessions } = balanced;
  const lines: string[] = [];
  if (subjects < fewestForIcc)
    lines.push(
      subjects < 2
        ? 'With one subject there is no ICC, and the error is that of marking this person.'
        : `With ${counted(subjects, 'subject')} an ICC is told with its interval and not put into words: that takes ${fewestForIcc}.`,
    );
  if (assessors > 1 && assessors < 5)
    lines.push(
      `${counted(assessors, 'assessor')} say little of all assessors: the intervals between assessors are wide, and rest on ${assessors - 1 === 1 ? 'one difference' : 'few differences'}.`,
    );
  if (assessors === 1) lines.push('One assessor: nothing can be said of differences between assessors.');
  if (sessions === 1)
    lines.push(
      'One session each: the error of one assessor on another day cannot be told apart from how an assessor deals with one subject; both are in the figure between assessors.',
    );
  return lines;
}

const sourceNames: Readonly<Record<keyof VarianceComponents, string>> = {
  subject: 'subjects',
  assessor: 'assessors',
  subjectByAssessor: 'assessor with subject',
  session: 'sessions',
};

function belowNothing({ placements, angles, distances }: Omit<StudyReport, 'cautions'>): string[] {
  const all: readonly Measured[] = [...placements, ...angles, ...distances];
  const counts = (Object.keys(sourceNames) as (keyof VarianceComponents)[]).flatMap((source) => {
    const count = all.filter(({ repeats }) => repeats?.belowNothing.includes(source)).length;
    return count === 0 ? [] : [`${sourceNames[source]} in ${count}`];
  });
  return counts.length === 0
    ? []
    : [
        `Of ${all.length} quantities some variances came out below zero and were set to zero (${counts.join(', ')}): in a small study that happens by chance where little is there.`,
      ];
}
