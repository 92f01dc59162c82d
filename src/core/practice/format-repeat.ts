import { type TextOptions, TextPage } from '../report/text-page.ts';
import type { ToldRepeat } from './repeat-rows.ts';

export const spreadTitle = 'Spread of one placing on its own segment, 1 SD, right and left together, mm';
export const furthestTitle = 'Each marker, furthest from the first placing, mm';

export function formatRepeat(
  { placings, doubts, landmarks, markers, limits }: ToldRepeat,
  options: TextOptions,
): string {
  const page = new TextPage(options);
  page.paragraph(`One subject, marked anew ${placings} times`, { ink: 'bold' });
  for (const doubt of doubts) page.paragraph(doubt, { ink: 'yellow' });
  page.heading(spreadTitle);
  page.table([
    ['', 'shown:', '', '', 'usual:', '', ''],
    ['', 'forward', 'up', 'outward', 'forward', 'up', 'outward'],
    ...landmarks.map(({ called, measured, usual }) => [called, ...measured, ...usual]),
  ]);
  page.heading(furthestTitle);
  page.table([
    ['', 'forward', 'up', 'outward', ''],
    ...markers.map(({ marker, furthest, isBeyondHand }) => [
      marker,
      ...furthest,
      isBeyondHand ? 'more than the hand' : '',
    ]),
  ]);
  page.blank();
  for (const says of limits) page.paragraph(says);
  return page.toString();
}
