import type { StudySize, StudyTable } from '../repeatability/study-components.ts';
import type { Placing } from './study-capture.ts';

/** The part of a study in which every assessor marked every subject equally often. */
export interface BalancedPart {
  readonly subjects: readonly string[];
  readonly assessors: readonly string[];
  readonly size: StudySize;
  /** Index of the capture of each subject, assessor and session. */
  readonly captures: readonly (readonly (readonly number[])[])[];
}

/** More assessors than this are not tried in every combination. */
const mostTried = 10;

/**
 * The largest balanced part: the assessors and the number of sessions that use most captures, with every subject whom all
 * of them marked so often. The first sessions count where there are more.
 * @param isThere whether a capture has a value
 * @returns null where nothing was repeated
 */
export function balancedPart(captures: readonly Placing[], isThere: (index: number) => boolean): BalancedPart | null {
  const cells = new Map<string, number[]>();
  captures.forEach((placing, index) => {
    if (!isThere(index)) return;
    const key = cellOf(placing.subject, placing.assessor);
    cells.set(key, [...(cells.get(key) ?? []), index]);
  });
  const subjects = [...new Set(captures.map(({ subject }) => subject))];
  const assessors = [...new Set(captures.map(({ assessor }) => assessor))];
  const count = (subject: string, assessor: string): number => cells.get(cellOf(subject, assessor))?.length ?? 0;
  const mostSessions = Math.max(0, ...[...cells.values()].map((cell) => cell.length));
  let best: { subjects: string[]; assessors: string[]; sessions: number } | null = null;
  for (const some of groupsOf(assessors)) {
    for (let sessions = 1; sessions <= mostSessions; sessions++) {
      if (sessions * some.length < 2) continue;
      const complete = subjects.filter((subject) => some.every((assessor) => count(subject, assessor) >= sessions));
      if (complete.length === 0) continue;
      const part = { subjects: complete, assessors: some, sessions };
      if (best === null || worth(part) > worth(best)) best = part;
    }
  }
  if (best === null) return null;
  const { sessions } = best;
  return {
    subjects: best.subjects,
    assessors: best.assessors,
    size: { subjects: best.subjects.length, assessors: best.assessors.length, sessions },
    captures: best.subjects.map((subject) =>
      best.assessors.map((assessor) => cells.get(cellOf(subject, assessor))!.slice(0, sessions)),
    ),
  };
}

/** The values of a balanced part. */
export function tableOf({ captures }: BalancedPart, values: readonly (number | null)[]): StudyTable {
  return captures.map((row) => row.map((sessions) => sessions.map((index) => values[index]!)));
}

/** Captures used; of equals, that which tells more sources apart. */
function worth({
  subjects,
  assessors,
  sessions,
}: {
  subjects: string[];
  assessors: string[];
  sessions: number;
}): number {
  const tells = [subjects.length > 1, assessors.length > 1, sessions > 1].filter(Boolean).length;
  return subjects.length * assessors.length * sessions + tells / 10 + subjects.length / 10_000;
}

function groupsOf(assessors: readonly string[]): string[][] {
  if (assessors.length > mostTried) return assessors.map((_, index) => assessors.slice(0, assessors.length - index));
  return Array.from({ length: 2 ** assessors.length - 1 }, (_, bits) =>
    assessors.filter((_, index) => ((bits + 1) >> index) & 1),
  );
}

function cellOf(subject: string, assessor: string): string {
  return JSON.stringify([subject, assessor]);
}
