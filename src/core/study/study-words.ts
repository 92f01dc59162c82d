import { bandOf } from '../gait-model/data-changes.ts';
import { angleInWords, bandWords } from '../moves/changes-words.ts';
import { counted } from '../report/counted.ts';
import { fixed } from '../report/rounding.ts';
import { worstSem } from './analyse-study.ts';
import type { AngleName } from './angle-values.ts';
import type { AngleCost } from './cost-in-degrees.ts';
import type { Estimate, Repeatability } from './judge-values.ts';
import type { PlacementDirection } from './placement-values.ts';
import { fewestForIcc } from './study-cautions.ts';
import type { AngleResult, Measured, PlacementResult, StudyReport } from './study-report.ts';

/** "3 assessors marked 5 subjects, 2 sessions each: 30 captures." */
export function headlineOf({ design: { balanced }, captures }: StudyReport): string {
  const { subjects, assessors, sessions } = balanced;
  const used = captures.filter(({ leftOut }) => leftOut === null).length;
  const told = subjects * assessors * sessions;
  const of = told === used ? '' : ` of ${used} that could be used`;
  return `${counted(assessors, 'assessor')} marked ${counted(subjects, 'subject')}, ${counted(sessions, 'session')} each: ${counted(told, 'capture')}${of}.`;
}

/** What an accreditor asks for, name and text. */
export function recordOf({ title, site, markerSet, design }: StudyReport): [string, string][] {
  const { firstDay, lastDay, daysApart, skinMarksRemoved, nextDue } = design;
  const study = [title, site === null ? null : `site ${site}`].filter((text) => text !== null).join(', ');
  const days = firstDay === null ? 'not recorded' : firstDay === lastDay ? firstDay : `${firstDay} to ${lastDay}`;
  const removed = {
    true: 'removed between sessions',
    false: 'left on between sessions: finding a mark again is easier than palpating',
  };
  return [
    ...(study === '' ? [] : [['Study', study] as [string, string]]),
    ['Marker set', `${markerSet.name}, version ${markerSet.version}`],
    ['Days', `${days}${daysApart === null ? '' : `; the same assessor again after ${apart(daysApart)}`}`],
    ['Skin marks', skinMarksRemoved === null ? 'not stated whether they were removed' : removed[`${skinMarksRemoved}`]],
    ['Next due', nextDue ?? 'not stated'],
  ];
}

function apart({ shortest, median, longest }: NonNullable<StudyReport['design']['daysApart']>): string {
  return shortest === longest
    ? counted(shortest, 'day')
    : `${fixed(Number.isInteger(median) ? 0 : 1, median)} days (${shortest} to ${longest})`;
}

/** The landmark that repeats worst, the one that costs most, and the worst joint angle: lead and sentence. */
export function worstOf({ placements, angles }: StudyReport): [string, string][] {
  const judged = placements.filter(isJudged);
  const worst = judged.reduce<Judged<PlacementResult> | null>(
    (most, one) => (most === null || worstSem(one.repeats) > worstSem(most.repeats) ? one : most),
    null,
  );
  const [costliest] = judged;
  const angle = angles.find(isJudged);
  const lines: [string, string][] = [];
  if (worst !== null)
    lines.push([
      'Repeats worst',
      `${placementName(worst)}: ${semsInWords(worst.repeats, 'mm')}.${worst.costs.length === 0 || worst.costs[0]!.deg < 0.05 ? ' No joint angle is read from it; others are placed by it.' : ''}`,
    ]);
  if (costliest?.costs[0] !== undefined && costliest.costs[0].deg >= 0.05) {
    const [cost] = costliest.costs;
    lines.push([
      'Costs most',
      `${placementName(costliest)}: its SEM of ${fixed(1, worstSem(costliest.repeats))} mm changes ${angleName(cost)} by ${fixed(1, cost.deg)} degrees. ${sourceAdvice(costliest)}`,
    ]);
  }
  if (angle !== undefined) lines.push(['Worst joint angle', angleSentence(angle)]);
  return lines;
}

function angleSentence(angle: Judged<AngleResult>): string {
  const { fromPlacingDeg, mostlyFrom } = angle;
  const placing =
    fromPlacingDeg === null || mostlyFrom === null
      ? ''
      : ` What could be told of the placing makes about ${fixed(1, fromPlacingDeg)}, most by ${mostlyFrom.marker} ${mostlyFrom.direction}; the rest is how the subjects stood, and placing that turned a whole segment.`;
  return `${angleName(angle)}: ${semsInWords(angle.repeats, 'degrees')}, ${bandWords[bandOf(worstSem(angle.repeats))]}.${placing}`;
}

type Judged<Result extends Measured> = Result & { readonly repeats: Repeatability };

export function isJudged<Result extends Measured>(result: Result): result is Judged<Result> {
  return result.repeats !== null;
}

/** "another assessor's differs with an SEM of 5.1 mm (95 % 3.9 to 8.2), the same assessor's on another day with 2.0 mm" */
function semsInWords({ semBetween, semWithin }: Repeatability, unit: string): string {
  const told = (name: string, estimate: Estimate | null): string[] =>
    estimate === null
      ? []
      : [
          `${name} ${fixed(1, estimate.value)} ${unit}${estimate.interval === null ? '' : ` (95 % ${rangeOf(estimate, 1, ' to ')})`}`,
        ];
  return `SEM ${[...told('between assessors', semBetween), ...told('of one assessor', semWithin)].join(', ')}`;
}

/** "right trochanter marker (R_GT), forward or backward" */
export function placementName({ marker, called, direction }: PlacementResult): string {
  return `${called} (${marker}), ${bothWays[direction]}`;
}

const bothWays: Readonly<Record<PlacementDirection, string>> = {
  forward: 'forward or backward',
  up: 'up or down',
  outward: 'outward or inward',
  left: 'to the left or right',
};

const ways: Readonly<Record<PlacementDirection, readonly [string, string]>> = {
  forward: ['forward', 'backward'],
  up: ['up', 'down'],
  outward: ['outward', 'inward'],
  left: ['to the left', 'to the right'],
};

/** The side of the angle is said where it is not the marker's own. */
export function costText(cost: AngleCost | undefined, marker: string): string {
  if (cost === undefined || cost.deg < 0.05) return 'no angle';
  const own = cost.side === 'midline' || marker.startsWith(cost.side === 'right' ? 'R_' : 'L_');
  return `${own ? angleName({ ...cost, side: 'midline' }) : angleName(cost)} ${fixed(1, cost.deg)}°`;
}

/** How many angles lie in each published band, and what the bands are for. */
export function angleBands({ angles }: StudyReport): string {
  const judged = angles.filter(isJudged);
  const bands = (['over-5', '2-to-5', 'under-2'] as const).map((band) => {
    const count = judged.filter(({ repeats }) => bandOf(worstSem(repeats)) === band).length;
    return `${counted(count, 'angle')} ${bandWords[band]}`;
  });
  return `SEM of ${bands.join('; of ')}. These bands (under 2 degrees acceptable, 2 to 5 reasonable, over 5 a concern: McGinley et al. 2009, from memory) are for a laboratory's total error in walking; standing angles hold the stance of the day as well, and lack what walking adds.`;
}

/** "right hip rotation" */
export function angleName({ joint, motion, side }: AngleName): string {
  const name = angleInWords(joint, motion);
  return side === 'midline' ? name : `${side} ${name}`;
}

/** What lies on either side of the middle, the lesser first: "backward", "forward". */
export function waysOf(direction: PlacementDirection): readonly [string, string] {
  const [greater, lesser] = ways[direction];
  return [lesser, greater];
}

/** "3.9-8.2" */
export function rangeOf({ interval }: Estimate, decimals: number, between = '-'): string {
  return interval === null ? '' : `${fixed(decimals, interval[0])}${between}${fixed(decimals, interval[1])}`;
}

/** "5.1 (3.9-8.2)"; "-" where the study cannot tell it. */
export function estimateText(estimate: Estimate | null, decimals: number): string {
  if (estimate === null) return '-';
  const range = rangeOf(estimate, decimals);
  return `${fixed(decimals, estimate.value)}${range === '' ? '' : ` (${range})`}`;
}

/** Shares of the error, the largest first: "what each assessor always does 61 %, from day to day 30 %". */
export function sourcesOf({ variance, size }: Repeatability): string {
  const day = size.sessions > 1 ? 'from day to day' : 'the day and how an assessor deals with one subject';
  const parts = [
    { name: 'what each assessor always does', share: variance.assessor },
    { name: 'how an assessor deals with one subject', share: variance.subjectByAssessor },
    { name: day, share: variance.session },
  ].filter((part): part is { name: string; share: number } => part.share !== null);
  const total = parts.reduce((sum, { share }) => sum + share, 0);
  if (total === 0) return 'nothing differed';
  return parts
    .map(({ name, share }) => ({ name, percent: Math.round((100 * share) / total) }))
    .filter(({ percent }) => percent > 0)
    .sort((a, b) => b.percent - a.percent)
    .map(({ name, percent }) => `${name} ${percent} %`)
    .join(', ');
}

/** What the largest source asks for. */
function sourceAdvice({ repeats }: Judged<PlacementResult>): string {
  const { assessor, subjectByAssessor, session } = repeats.variance;
  if (assessor === null) return 'Most differs from day to day: practise finding it again.';
  return assessor > session + (subjectByAssessor ?? 0)
    ? 'Most of that is what each assessor always does: agree on where it belongs.'
    : 'Most of that differs from day to day, whoever places it: practise finding it again.';
}

const leastOffsetMm = 1;

/** "CS 6 mm forward, AK 3 mm backward of the mean of all"; empty where nobody differs by a millimetre. */
export function offsetsOf({ direction, repeats }: PlacementResult): string {
  const told = (repeats?.offsets ?? []).filter(({ by }) => Math.abs(by) >= leastOffsetMm);
  if (told.length === 0) return '';
  const words = told
    .toSorted((a, b) => Math.abs(b.by) - Math.abs(a.by))
    .map(({ assessor, by }) => `${assessor} ${fixed(1, Math.abs(by))} mm ${ways[direction][by > 0 ? 0 : 1]}`);
  return `${words.join(', ')}, against the mean of all`;
}

/** An ICC in words; null under ten subjects (Koo and Li 2016, J Chiropr Med 15:155-163, from memory: by the interval). */
export function iccInWords(icc: Estimate | null, subjects: number): string | null {
  if (icc === null || icc.interval === null || subjects < fewestForIcc) return null;
  const word = (value: number): string =>
    value < 0.5 ? 'poor' : value < 0.75 ? 'moderate' : value < 0.9 ? 'good' : 'excellent';
  const [low, high] = icc.interval.map(word) as [string, string];
  return low === high ? low : `${low} to ${high}`;
}

/** The models, as a report has to name them. */
export function modelsOf({ design: { balanced } }: StudyReport): string {
  const { subjects, assessors, sessions } = balanced;
  const error = 'intervals 95 %';
  if (subjects < 2) return `One subject: variance of assessors and of sessions within them, random effects; ${error}.`;
  if (assessors < 2)
    return `Subjects random, sessions within them (one-way). ICC: Shrout and Fleiss 1979, ICC(1,1); ${error}.`;
  if (sessions < 2)
    return `Subjects and assessors random, one session each (two-way). ICC: Shrout and Fleiss 1979, ICC(2,1), agreement in value, one measurement; ${error}, of the ICC after McGraw and Wong 1996.`;
  return `Subjects, assessors and their interaction random, sessions within them. ICC: agreement in value, one measurement; of one assessor on any day, and of any assessor on any day; ${error}, generalised (Weerahandi 1993).`;
}

/** What the figures mean, each a paragraph. */
export const meanings: readonly string[] = [
  'SEM: standard error of measurement, 1 SD of the error of one measurement. "One assessor" is the same hand on another day, "any assessor" another hand on another day. MDC95 (1.96 x 1.41 SEM): a smaller change of one person may be error alone.',
  'Every marker was placed anew each time, so the frames of the segments moved with them. A palpated marker is told against the palpated markers of its segment, each counted by how precisely such a marker is placed; a direction that cannot be told apart from how the segment lay is left out. A marker set by eye is told by the rule that its protocol sets it by. Distances between two markers have no frame in them. Joint angles hold the placing and how the subject stood that day.',
  'An ICC compares the error with how much these subjects differ. For a place on a segment that is mostly their size, so read the SEM.',
];

/** Figures of others, for orientation. */
export const publishedPrecision: readonly string[] = [
  'All directions together, pelvis and legs: 6 to 21 mm for one examiner, 13 to 25 mm between examiners (Della Croce, Cappozzo and Kerrigan 1999; from memory).',
  'Iliac spines and greater trochanter: about 15 to 20 mm within and between (reviewed in Della Croce et al. 2005).',
  'Where a mark on the skin was left: 1.4 mm (Telfer 2010, foot).',
];
