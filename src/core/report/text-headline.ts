import { notProof } from './advice.ts';
import { counted } from './counted.ts';
import type { Problem, Report, RuleStatus } from './report.ts';

/** What was found and how much could be checked, never the one without the other. */
export function headline(report: Report): string {
  const { restless, found, coverage, caution } = headlineParts(report);
  return [restless, found, coverage, caution].filter((text) => text !== '').join(' ');
}

/** The sentences of the headline, for a page that sets them apart; empty where one does not apply. */
export function headlineParts(report: Report): { restless: string; found: string; coverage: string; caution: string } {
  const { rules, assessed } = report.coverage;
  const restless = report.verdict !== 'not-assessable' && report.problems.some(({ code }) => code === 'not-still');
  return {
    restless: restless ? 'The patient did not stand still, so only part could be checked.' : '',
    found: finding(report),
    coverage: `${assessed} of ${counted(rules, 'check')} could be made.`,
    caution: report.verdict === 'ready' ? notProof : '',
  };
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

/** "Nothing found" only where there is nothing at all to read below. */
function nothingToDo(report: Report): string {
  const outside = report.stance?.measures.filter(({ status }) => status === 'fail').length ?? 0;
  const warnings = report.problems.length;
  const departing = report.sheetAgainstTrial?.compared.filter(({ agrees }) => !agrees).length ?? 0;
  const but = [
    { count: outside, words: `${counted(outside, 'measure')} of the stance outside the usual` },
    {
      count: withStatus(report, 'borderline'),
      words: `${counted(withStatus(report, 'borderline'), 'check')} borderline`,
    },
    {
      count: withStatus(report, 'accepted'),
      words: `${counted(withStatus(report, 'accepted'), 'finding')} accepted in the session`,
    },
    {
      count: departing,
      words: `${counted(departing, 'hand measurement')} that ${departing === 1 ? 'does' : 'do'} not go with the markers`,
    },
    { count: warnings, words: `${counted(warnings, 'warning')} about the trial` },
    { count: report.notes.length, words: counted(report.notes.length, 'note') },
  ].flatMap(({ count, words }) => (count > 0 ? [words] : []));
  if (but.length === 0) return 'Nothing found.';
  const listed = [but.slice(0, -1).join(', '), but.at(-1)].filter((words) => words !== '').join(' and ');
  return `Nothing to do before walking, with ${listed}.`;
}

function whyNotAssessable(report: Report): string {
  const problems = openProblems(report);
  if (problems.some((problem) => problem.code === 'file-unreadable')) return 'the file cannot be read';
  if (problems.some((problem) => problem.code === 'not-still')) return 'the person was not still';
  if (report.coverage.assessed === 0) return 'no check could be made';
  const essential = report.coverage.essentialNotAssessed.length;
  if (essential > 0) return `${counted(essential, 'essential check')} could not be made`;
  return 'too few checks could be made';
}

/** Errors that no step settles, for a person to settle before everything else. */
export function openProblems(report: Report): Problem[] {
  return report.problems.filter((problem) => problem.severity === 'error' && !isSettledByStep(problem, report));
}

/** Errors about exchanged labels: what is below them was checked as if the labels were right. */
export function swapsToRelabel(report: Report): Problem[] {
  return report.problems.filter((problem) => problem.code === 'labels-swapped' && isSettledByStep(problem, report));
}

function isSettledByStep({ code }: Problem, { moves, verdict }: Report): boolean {
  if (code === 'labels-swapped') return moves.some((move) => move.action === 'relabel');
  return code === 'not-still' && verdict !== 'not-assessable' && moves.some((move) => move.action === 'stand-again');
}

function withStatus(report: Report, status: RuleStatus): number {
  return report.rules.filter((rule) => rule.status === status).length;
}
