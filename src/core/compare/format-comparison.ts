import type { NamedRule } from '../captures/compare-captures.ts';
import { angleInWords } from '../moves/changes-words.ts';
import { fixed } from '../report/rounding.ts';
import { sentence } from '../report/sentence.ts';
import { type TextOptions, TextPage } from '../report/text-page.ts';
import type { TrialComparison } from './compare-trials.ts';
import type { JointAngleDifference } from './joint-angle-differences.ts';
import type { PlacementDifference } from './placement-differences.ts';
import type { SameMarking } from './same-marking.ts';

/** Smaller differences are not listed: nobody places a marker better. */
const listedMm = 2;
const listedDeg = 1;

/** @param names what the two captures are called */
export function formatComparison(
  { marking, placement, angles, posture, onlyBefore, onlyNow, steps }: TrialComparison,
  names: { readonly before: string; readonly now: string },
  options: TextOptions,
): string {
  const page = new TextPage(options);
  page.paragraph(`${names.now} against ${names.before}`, { ink: 'bold' });
  const isProcessedAgain = steps?.kind === 'processed-again';
  for (const line of markingSays(marking, isProcessedAgain)) page.paragraph(line, { indent: 2 });
  if (steps !== null) {
    if (steps.steps.length > 0) page.heading('What was asked for');
    for (const { step, says } of steps.steps) page.paragraph(sentence(says), { indent: 2, lead: `${step}. ` });
    const remains = (
      [
        ['Settled', steps.settled.map(ruleName)],
        ['Still failing', steps.stillFailing.map(ruleName)],
        ['Failing only now', steps.newlyFailing.map(ruleName)],
        ['Missing before, seen now', steps.seenNow],
        ['Missing only now', steps.missingNow],
      ] as const
    ).filter(([, names]) => names.length > 0);
    if (remains.length > 0) page.heading('What the checks say now');
    for (const [lead, names] of remains) page.paragraph(`${names.join('; ')}.`, { indent: 2, lead: `${lead}: ` });
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
  if (angles.length > 0) {
    page.heading('Joint angles in standing, degrees');
    const told = angles.filter((angle) => Math.max(...sharesOf(angle).map(Math.abs)) >= listedDeg);
    if (told.length === 0) page.paragraph(`None differs by ${listedDeg} degree or more.`, { indent: 2 });
    else page.table([['', 'before', 'now', 'difference', 'placing', 'standing'], ...told.map(angleRow)]);
    const others = angles.length - told.length;
    if (told.length > 0 && others > 0) page.paragraph(`${others} others within ${listedDeg} degree.`, { indent: 2 });
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
    'Each segment is laid onto itself, so posture hardly counts; what one marker is off is shared in part by its neighbours. "More than the hand" is beyond what two careful placings of such a marker seldom differ by.',
  );
  if (angles.length > 0)
    page.paragraph(
      '"Placing" is what an angle changes by these differences of placement; "standing" is the rest: how the person stood, and a segment whose markers all turned together.',
    );
  return page.toString();
}

function row({ marker, mm, beyondHand }: PlacementDifference): string[] {
  return [marker, fixed(1, mm.forward), fixed(1, mm.up), fixed(1, mm.outward), beyondHand ? 'more than the hand' : ''];
}

/** Whether the markers stayed on, and what that means for every figure below. */
function markingSays({ markers, spacingChangeMm, sizeChange, otherPerson }: SameMarking, again: boolean): string[] {
  const lines: string[] = [];
  if (otherPerson && sizeChange !== null)
    lines.push(
      `Distances within segments are ${Math.round(Math.abs(sizeChange) * 100)} % ${sizeChange > 0 ? 'larger' : 'smaller'} than before: look whether it is the same person. Of two people nothing below means anything.`,
    );
  if (again) lines.push('It is the same recording, processed again.');
  else if (markers === 'cannot-tell')
    lines.push('Too few markers are in both to tell whether they stayed on in between.');
  else {
    const change = `distances between neighbours changed by ${fixed(1, spacingChangeMm!)} mm (median)`;
    lines.push(
      markers === 'stayed-on'
        ? `The markers stayed on: ${change}.`
        : `Several markers, or all, were placed anew: ${change}. The frames of the segments moved with them, so nothing holds still: figures in mm are between markers of a segment, and every angle and measure of posture holds placing as well.`,
    );
  }
  return lines;
}

/** "Heel height, left" */
function ruleName({ title, side }: NamedRule): string {
  return side === 'right' || side === 'left' ? `${title}, ${side}` : title;
}

/** Difference, and what of it comes from placing and from standing. */
function sharesOf({ before, now, fromPlacing }: JointAngleDifference): [number, number, number] {
  return [now - before, fromPlacing, now - before - fromPlacing];
}

function angleRow(angle: JointAngleDifference): string[] {
  const { joint, motion, side, before, now } = angle;
  const name = angleInWords(joint, motion);
  return [
    side === 'midline' ? name : `${side} ${name}`,
    ...[before, now, ...sharesOf(angle)].map((deg) => fixed(1, deg)),
  ];
}
