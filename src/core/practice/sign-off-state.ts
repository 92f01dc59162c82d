import { daysBetween } from './days-between.ts';
import type { History, SignOff, Withdrawal } from './history.ts';
import type { LandmarkRecord } from './landmark-record.ts';

/** What stands for a landmark on a day. */
export interface SignOffState {
  readonly trainee: string;
  readonly landmark: string;
  readonly state: 'in-force' | 'overdue' | 'withdrawn';
  readonly signer: string;
  readonly on: string;
  readonly due: string;
  /** Days until it is due; negative where it is overdue. */
  readonly daysLeft: number;
  readonly evidence: SignOff['evidence'];
  /** Why it was signed on little evidence, or withdrawn; empty for none. */
  readonly reason: string;
}

/**
 * What stands on a day of what was signed: for each trainee and landmark the newest line, whatever came before it. Lines
 * of a later day are not there yet. The due day itself is still in time.
 * @param asOf YYYY-MM-DD
 */
export function signOffStates({ lines }: History, asOf: string): SignOffState[] {
  const newest = new Map<string, { signed: SignOff | null; withdrawn: Withdrawal | null }>();
  for (const line of lines) {
    if ((line.kind !== 'sign-off' && line.kind !== 'withdrawal') || line.on > asOf) continue;
    const key = JSON.stringify([line.trainee, line.landmark]);
    const before = newest.get(key);
    if (line.kind === 'sign-off') newest.set(key, { signed: line, withdrawn: null });
    else if (before?.signed) newest.set(key, { ...before, withdrawn: line });
  }
  return [...newest.values()].flatMap(({ signed, withdrawn }): SignOffState[] => {
    if (signed === null) return [];
    const { trainee, landmark, due, evidence } = signed;
    const daysLeft = daysBetween(asOf, due);
    const last = withdrawn ?? signed;
    const state = withdrawn !== null ? 'withdrawn' : daysLeft < 0 ? 'overdue' : 'in-force';
    return [
      { trainee, landmark, state, signer: last.signer, on: last.on, due, daysLeft, evidence, reason: last.reason },
    ];
  });
}

/** Fewer answers give no score, and no sign-off without a reason; so does a smaller share right (common practice). */
export const fewestAsked = 5;
export const leastShare = 0.8;

/**
 * What speaks against signing on these answers; empty where nothing does. Naming a landmark where nothing is off counts as
 * an answer that is not right: whoever always names it finds it every time.
 */
export function againstSigning({
  asked,
  right,
  invented,
}: Pick<LandmarkRecord, 'asked' | 'right' | 'invented'>): string {
  if (asked < fewestAsked) return `it was off in ${asked} of the answered trials, fewer than ${fewestAsked}`;
  const share = right / (asked + invented);
  if (share >= leastShare) return '';
  return `${right} of ${asked + invented} answers about it are right, less than ${Math.round(100 * leastShare)} %`;
}
