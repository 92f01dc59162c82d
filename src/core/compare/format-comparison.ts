import { fixed } from '../report/rounding.ts';
import { sentence } from '../report/sentence.ts';
import { type TextOptions, TextPage } from '../report/text-page.ts';
import type { TrialComparison } from './compare-trials.ts';
import type { PlacementDifference } from './placement-differences.ts';

/** Smaller differences are not listed: nobody places a marker better. */
const listedMm = 2;

/** @param names what the two captures are called */
export function formatComparison(
  { placement, posture, onlyBefore, onlyNow, steps }: TrialComparison,
  names: { readonly before: string; readonly now: string },
  options: TextOptions,
): string {
  const page = new TextPage(options);
  page.paragraph(`${names.now} against ${names.before}`, { ink: 'bold' });
  const told = steps?.steps ?? [];
  if (told.length > 0) {
    page.heading('What was asked for');
    for (const { step, says } of told) page.paragraph(sentence(says), { indent: 2, lead: `${step}. ` });
  }
  page.heading('Placement: each marker on its own segment, mm');
  const far = placement.filter(({ distanceMm }) => distanceMm >= listedMm);
  if (far.length === 0) page.paragraph(`No marker sits ${listedMm} mm or more from where it sat.`, { indent: 2 });
  else page.table([['', 'forward', 'up', 'outward', ''], ...far.map(row)]);
  const rest = placement.length - far.length;
  if (far.length > 0 && rest > 0) page.paragraph(`${rest} others within ${listedMm} mm.`, { indent: 2 });
  for (const [labels, of] of [
    [onlyBefore, names.before],
    [onlyNow, names.now],
  ] as const) {
    if (labels.length > 0) page.paragraph(`Only in ${of}: ${labels.join(', ')}.`, { indent: 2 });
  }
  if (posture.length > 0) {
    page.heading('Posture: how the person stands');
    page.table([
      ['', 'before', 'now', 'difference', ''],
      ...posture.map(({ title, side, before, now, unit }) => [
        side === 'right' || side === 'left' ? `${title}, ${side}` : title,
        fixed(1, before),
        fixed(1, now),
        fixed(1, now - before),
        unit,
      ]),
    ]);
  }
  page.blank();
  page.paragraph(
    'Each segment is laid onto itself, so posture hardly counts; where every marker was placed anew nothing holds still, and what one marker is off is shared by its neighbours. "More than the hand" is beyond what two careful placings of such a marker seldom differ by.',
  );
  return page.toString();
}

function row({ marker, mm, beyondHand }: PlacementDifference): string[] {
  return [marker, fixed(1, mm.forward), fixed(1, mm.up), fixed(1, mm.outward), beyondHand ? 'more than the hand' : ''];
}
