import { notProof } from './advice.ts';
import { counted } from './counted.ts';
import type { Problem, Report } from './report.ts';

/** What was found and how much could be checked, never the one without the other. */
export function headline(report: Report): string {
  const { rules, assessed } = report.coverage;
  const coverage = `${assessed} of ${counted(rules, 'check')} could be made.`;
  return [finding(report), coverage, ...(report.verdict === 'ready' ? [notProof] : [])].join(' ');
}

function finding(report: Report): string {
  if (report.verdict === 'not-assessable') return `This trial cannot be judged: ${whyNotAssessable(report)}.`;
  if (report.verdict === 'ready') return nothingToDo(report);
  const steps = report.moves.length;
  const open = openProblems(report).length;
  if (steps > 0 && open > 0) {
    return `${counted(steps, 'step')} to do before walking, and ${counted(open, 'problem')} to settle.`;
  }
  if (steps > 0) return `${counted(steps, 'step')} to do before walking.`;
  if (open > 0) return `${counted(open, 'problem')} to settle before walking.`;
  const failing = withStatus(report, 'fail');
  return `${counted(failing, 'check')} failed, and no single step would put ${failing === 1 ? 'it' : 'them'} right.`;
}

function nothingToDo(report: Report): string {
  const near = withStatus(report, 'borderline');
  const accepted = withStatus(report, 'accepted');
  const but = [
    ...(near > 0 ? [`${counted(near, 'check')} borderline`] : []),
    ...(accepted > 0 ? [`${counted(accepted, 'finding')} accepted in the session`] : []),
  ];
  return but.length === 0 ? 'Nothing found.' : `Nothing to do before walking, with ${but.join(' and ')}.`;
}

function whyNotAssessable(report: Report): string {
  const problems = openProblems(report);
  if (problems.some((problem) => problem.code === 'file-unreadable')) return 'the file cannot be read';
  if (problems.some((problem) => problem.code === 'not-still')) return 'the person was never still';
  const essential = report.coverage.essentialNotAssessed.length;
  if (essential > 0) return `${counted(essential, 'essential check')} could not be made`;
  return 'too few checks could be made';
}

/** Errors that no step settles, for a person to settle before everything else. */
export function openProblems(report: Report): Problem[] {
  const relabels = report.moves.some((move) => move.action === 'relabel');
  const standsAgain = report.moves.some((move) => move.action === 'stand-again');
  return report.problems.filter(
    (problem) =>
      problem.severity === 'error' &&
      !(problem.code === 'labels-swapped' && relabels) &&
      !(problem.code === 'not-still' && standsAgain && report.verdict !== 'not-assessable'),
  );
}

function withStatus(report: Report, status: string): number {
  return report.rules.filter((rule) => rule.status === status).length;
}
