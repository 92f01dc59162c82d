import type { TrialRow } from './trial-row.ts';

/**
 * Which of several rows of one recording stands for it: the one that knows most, then the one whose JSON comes first.
 * So the answer is the same in whatever order, and in however many parts, they lie. Their files add up.
 */
export function mergeCopies(rows: readonly TrialRow[]): TrialRow {
  const ranked = rows
    .map((row) => ({ row, known: knows(row), json: JSON.stringify({ ...row, copies: 0, path: null }) }))
    .sort((a, b) => b.known - a.known || (a.json < b.json ? -1 : a.json > b.json ? 1 : byPath(a.row, b.row)));
  return { ...ranked[0]!.row, copies: rows.reduce((sum, { copies }) => sum + copies, 0) };
}

function knows({ has_session, assessor, site, visit_on, subject }: TrialRow): number {
  return (has_session ? 10 : 0) + [assessor, site, visit_on, subject].filter((value) => value !== null).length;
}

function byPath(a: TrialRow, b: TrialRow): number {
  return (a.path ?? '') < (b.path ?? '') ? -1 : 1;
}
