import type { MarkerSet } from '../marker-set/marker-set.ts';
import type { AnsweredTrial } from './history.ts';
import { isAllRight } from './session-summary.ts';
import { skinWays } from './skin-ways.ts';

/** What became of all the trials of one kind: made ones, where the truth is known, or stored ones. */
export interface BasisScore {
  readonly trials: number;
  /** Trials in which everything was right: what is off and the way, or that nothing is. */
  readonly whollyRight: number;
  /** Markers that were off, and how many of them were found with the way right. */
  readonly faults: { readonly asked: number; readonly right: number };
  /** Trials with nothing to move, and how many of them were left alone. */
  readonly clean: { readonly asked: number; readonly right: number };
}

/** Trials with nothing to move count as much as the others: whoever always names something is not right half the time. */
export function basisScore(answers: readonly AnsweredTrial[]): BasisScore {
  const faults = answers.flatMap(({ scored }) => scored.filter(({ outcome }) => asksForIt(outcome)));
  const clean = answers.filter(({ scored }) => !scored.some(({ outcome }) => asksForIt(outcome)));
  return {
    trials: answers.length,
    whollyRight: answers.filter(isAllRight).length,
    faults: { asked: faults.length, right: faults.filter(({ wayRight }) => wayRight === true).length },
    clean: { asked: clean.length, right: clean.filter(isAllRight).length },
  };
}

function asksForIt(outcome: AnsweredTrial['scored'][number]['outcome']): boolean {
  return outcome === 'found' || outcome === 'tied' || outcome === 'missed';
}

/** Ways that can be written down: one of these, drawn blindly, is right about once in so many. */
export function blindChoices(set: MarkerSet): number {
  return set.markers
    .filter(({ purpose }) => purpose !== 'tracks')
    .reduce((sum, marker) => sum + skinWays(marker).length, 0);
}
