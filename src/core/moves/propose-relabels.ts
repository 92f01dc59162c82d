import type { WeighedMarkers } from '../decision/weigh-markers.ts';
import type { Swap } from '../labels/find-swaps.ts';
import type { MarkerSet } from '../marker-set/marker-set.ts';
import type { Problem } from '../problems/problem.ts';
import type { AssessedRule } from '../rules/assess-rules.ts';
import type { MoveProposal } from './move.ts';

/** Exchanged labels as a problem and as a step: nobody touches a marker for them. */
export function reportSwap(
  swap: Swap,
  set: MarkerSet,
  seen: (marker: number) => boolean,
): { problem: Problem; proposal: MoveProposal } {
  const pairs = swap.exchanges.filter(([a, b]) => seen(a) || seen(b));
  const labels = pairs.flatMap(([a, b]) => [set.markers[a]!.label, set.markers[b]!.label]);
  const whole = swap.kind === 'whole-body';
  const names = whole ? 'all left and right labels' : `the labels ${labels.join(' and ')}`;
  return {
    problem: {
      code: 'labels-swapped',
      severity: 'error',
      markers: labels,
      message: whole
        ? 'Every right label stands on the left and every left label on the right: the sides are exchanged, and the patient does not face the other way.'
        : `${labels.join(' and ')} stand on each other's place.`,
      remedy:
        'Leave the markers, correct the labels and process the trial again. Everything below is checked as if that had been done.',
    },
    proposal: {
      action: 'relabel',
      ...(whole ? {} : { marker: labels[0]!, side: set.markers[pairs[0]![0]]!.side }),
      probability: null,
      resolves: [],
      instruction: `Leave the markers where they are. Exchange ${names} and process the trial again.`,
      confirmBy: confirmLabels,
      why: whyLabels,
    },
  };
}

/** Labels that the order of the body allows as they stand, but that the figures take for exchanged. */
export function proposeExchange(
  { labels, probability }: NonNullable<WeighedMarkers['exchange']>,
  resolves: readonly AssessedRule[],
  set: MarkerSet,
): MoveProposal {
  return {
    action: 'relabel',
    marker: labels[0],
    side: set.markers.find(({ label }) => label === labels[0])!.side,
    probability,
    resolves: resolves.map(({ rule }) => rule.id),
    instruction: `Leave the markers where they are. Look whether the labels ${labels.join(' and ')} are exchanged: each fits the other's place better. If they are, correct them and process the trial again.`,
    confirmBy: confirmLabels,
    why: whyLabels,
  };
}

const confirmLabels = 'In the picture of the trial, each label stands on the marker it names.';
const whyLabels = 'With exchanged labels every angle of these segments is read from the wrong place.';
