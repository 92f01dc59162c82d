import type { Verdict } from '../../core/report/report.ts';
import { type Agreement, cohenKappa } from '../analysis/kappa.ts';
import type { NonConformance, Reading } from './read-verdicts.ts';

export interface ReaderAgreement extends Agreement {
  readonly first: string;
  readonly second: string;
  readonly disagreements: readonly { readonly trial: string; readonly first: Verdict; readonly second: Verdict }[];
}

export interface SampleReport {
  readonly format: 'setsquare-audit-sample/1';
  readonly readers: readonly { readonly reader: string; readonly read: number }[];
  readonly unread: number;
  /** Verdicts on trials that this archive does not hold. */
  readonly unknown: readonly string[];
  readonly withTool: readonly ReaderAgreement[];
  readonly betweenReaders: readonly ReaderAgreement[];
  readonly nonConformances: readonly (NonConformance & {
    readonly trial: string;
    readonly reader: string;
    readonly state: 'open' | 'overdue' | 'closed' | 'no due day';
  })[];
}

/**
 * How far readers agree with the tool and with each other, and what became of the non-conformances.
 * @param toolVerdicts by the first 8 digits of the hash
 * @param today the day against which a due day is overdue; null leaves that unsaid
 */
export function compareReaders(
  readings: readonly Reading[],
  unread: number,
  toolVerdicts: ReadonlyMap<string, Verdict>,
  today: string | null,
): SampleReport {
  const byReader = new Map<string, Map<string, Verdict>>();
  for (const { reader, trial, verdict } of readings) {
    const own = byReader.get(reader) ?? new Map<string, Verdict>();
    byReader.set(reader, own);
    own.set(trial, verdict);
  }
  const readers = [...byReader].sort(([a], [b]) => (a < b ? -1 : 1));
  return {
    format: 'setsquare-audit-sample/1',
    readers: readers.map(([reader, own]) => ({ reader, read: own.size })),
    unread,
    unknown: [...new Set(readings.map(({ trial }) => trial).filter((trial) => !toolVerdicts.has(trial)))].sort(),
    withTool: readers.map(([reader, own]) => agreement(reader, own, 'setsquare', toolVerdicts)),
    betweenReaders: readers.flatMap(([first, own], index) =>
      readers.slice(index + 1).map(([second, other]) => agreement(first, own, second, other)),
    ),
    nonConformances: readings.flatMap(({ trial, reader, nonConformance }) =>
      nonConformance === null ? [] : [{ trial, reader, ...nonConformance, state: stateOf(nonConformance, today) }],
    ),
  };
}

function agreement(
  first: string,
  own: ReadonlyMap<string, Verdict>,
  second: string,
  other: ReadonlyMap<string, Verdict>,
): ReaderAgreement {
  const shared = [...own].flatMap(([trial, verdict]) => {
    const theirs = other.get(trial);
    return theirs === undefined ? [] : [{ trial, first: verdict, second: theirs }];
  });
  return {
    first,
    second,
    ...cohenKappa(shared.map((pair) => [pair.first, pair.second])),
    disagreements: shared.filter((pair) => pair.first !== pair.second),
  };
}

function stateOf(
  { due, closed }: NonConformance,
  today: string | null,
): SampleReport['nonConformances'][number]['state'] {
  if (closed !== null) return 'closed';
  if (due === null) return 'no due day';
  return today !== null && due < today ? 'overdue' : 'open';
}
