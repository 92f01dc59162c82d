import type { MarkerSet } from '../marker-set/marker-set.ts';
import { fixed } from '../report/rounding.ts';
import { type TextOptions, TextPage } from '../report/text-page.ts';
import { directions, type RepeatedMarker, type RepeatedPlacement } from './repeat-placing.ts';
import { sdInterval } from './sd-interval.ts';
import { landmarkWords } from './session-summary.ts';

export function formatRepeat(
  repeated: RepeatedPlacement,
  doubts: readonly string[],
  set: MarkerSet,
  options: TextOptions,
): string {
  const { placings, landmarks, markers } = repeated;
  const page = new TextPage(options);
  page.paragraph(`One subject, marked anew ${placings} times`, { ink: 'bold' });
  for (const doubt of doubts) page.paragraph(doubt, { ink: 'yellow' });
  page.heading('Spread of one placing on its own segment, 1 SD, right and left together, mm');
  page.table([
    ['', 'measured:', '', '', 'stated:', '', ''],
    ['', 'forward', 'up', 'outward', 'forward', 'up', 'outward'],
    ...landmarks.map(({ landmark, forwardMm, upMm, outwardMm }) => [
      landmarkWords(set, landmark),
      ...[forwardMm, upMm, outwardMm].map((mm) => fixed(1, mm)),
      ...statedCells(set, landmark),
    ]),
  ]);
  page.heading('Each marker, furthest from the first placing, mm');
  page.table([
    ['', 'forward', 'up', 'outward', ''],
    ...markers.map(({ marker }) => [marker, ...furthestCells(repeated, marker)]),
  ]);
  page.blank();
  for (const says of repeatLimits(repeated)) page.paragraph(says);
  return page.toString();
}

function statedCells(set: MarkerSet, landmark: string): string[] {
  const { scatterMm } = set.markers.find(({ stem }) => stem === landmark)!;
  return directions.map((along) => fixed(1, scatterMm[along]));
}

function furthestCells({ against }: RepeatedPlacement, marker: RepeatedMarker['marker']): string[] {
  const own = against.map((one) => one.find((other) => other.marker === marker)!);
  const furthest = directions.map(
    (along) => own.map(({ mm }) => mm[along]).sort((a, b) => Math.abs(b) - Math.abs(a))[0]!,
  );
  return [...furthest.map((mm) => fixed(1, mm)), own.some(({ beyondHand }) => beyondHand) ? 'more than the hand' : ''];
}

/** How little so few placings say, and what the comparison cannot tell. */
export function repeatLimits({ placings, landmarks }: RepeatedPlacement): string[] {
  const degrees = Math.max(1, ...landmarks.map((one) => one.degrees));
  const [low, high] = sdInterval(degrees);
  const [lowAlone, highAlone] = sdInterval(placings - 1);
  const pooled =
    degrees === placings - 1
      ? ''
      : `, of both sides together ${fixed(1, low)} to ${fixed(1, high)} times (as if the sides were independent)`;
  return [
    `From ${placings} placings: the true spread of one marker may be ${fixed(1, lowAlone)} to ${fixed(1, highAlone)} times what is shown${pooled}; 95 %, by chi-square. It is this subject's alone.`,
    'A constant error shows in no spread: a landmark that is taken too low every time is placed alike every time. Where every marker was placed anew nothing holds still, and what one marker is off is shared by its neighbours on the segment.',
    '"Stated" is the hand that the marker set reckons with. "More than the hand" is beyond what two careful placings of such a marker seldom differ by.',
  ];
}
