import type { AcceptedMarker, AnswerKey, ExpectedFinding } from './answer-key.ts';
import { alongWay, distanceOf, type Way } from './skin-ways.ts';

/** One marker that the trainee would move: which way, about how many mm. */
export interface NamedMove {
  readonly marker: string;
  readonly way: Way;
  readonly mm: number;
}

/** What the trainee wrote down; empty: nothing to move. */
export type WrittenVerdict = readonly NamedMove[];

/**
 * `found`: the marker itself; `tied`: another that nothing tells it apart from, which is as right; `missed`: not named;
 * `invented`: named, and nothing is to be moved there; `untold`: named where the program cannot see, and not counted.
 */
export type Outcome = 'found' | 'tied' | 'missed' | 'invented' | 'untold';

export interface FindingScore {
  readonly outcome: Outcome;
  /** The marker that is off; for an invented one the marker that was named. */
  readonly marker: string;
  /** The marker that was named; null where none was. */
  readonly named: string | null;
  /** Null where nothing is there to judge a way by. */
  readonly wayRight: boolean | null;
  /** Distance that was written, less the distance along that way; null where the way is not right. */
  readonly errorMm: number | null;
}

export interface VerdictScore {
  readonly findings: readonly FindingScore[];
  /** Nothing was to be moved and nothing was named. */
  readonly keptClean: boolean;
}

/** A way is right that takes the marker at least half as far as it has to go: within 60 degrees of it. */
const rightShare = 0.5;

/**
 * Scores a written verdict. Each thing that is off is answered by at most one marker that was named, and each marker that
 * was named answers at most one: first those that are named themselves, then those of a tie. Whatever the order in which
 * markers were named, the score is the same.
 */
export function scoreVerdict(verdict: WrittenVerdict, { expected, unseen }: AnswerKey): VerdictScore {
  const left = [...verdict].sort((a, b) => (a.marker < b.marker ? -1 : a.marker > b.marker ? 1 : 0));
  const answers = new Map<ExpectedFinding, NamedMove>();
  const take = (finding: ExpectedFinding, markers: readonly AcceptedMarker[]): void => {
    const at = left.findIndex(({ marker }) => markers.some((one) => one.marker === marker));
    if (at >= 0) answers.set(finding, left.splice(at, 1)[0]!);
  };
  for (const finding of expected) take(finding, finding.accepted.slice(0, 1));
  for (const finding of expected) if (!answers.has(finding)) take(finding, finding.accepted.slice(1));
  const findings = expected.flatMap((finding): FindingScore[] => {
    const answer = answers.get(finding);
    const { marker } = finding.accepted[0];
    if (answer !== undefined) return [scoreMove(marker, answer, finding)];
    if (finding.isOptional) return [];
    return [{ outcome: 'missed', marker, named: null, wayRight: null, errorMm: null }];
  });
  const invented = left.map(({ marker }): FindingScore => {
    const outcome = unseen.includes(marker) ? 'untold' : 'invented';
    return { outcome, marker, named: marker, wayRight: null, errorMm: null };
  });
  return {
    findings: [...findings, ...invented],
    keptClean: verdict.length === 0 && expected.every(({ isOptional }) => isOptional),
  };
}

function scoreMove(marker: string, answer: NamedMove, { accepted }: ExpectedFinding): FindingScore {
  const meant = accepted.find((one) => one.marker === answer.marker)!;
  const alongMm = alongWay(answer.way, meant.side, meant.shift);
  const wayRight = alongMm >= rightShare * distanceOf(meant.shift);
  return {
    outcome: answer.marker === marker ? 'found' : 'tied',
    marker,
    named: answer.marker,
    wayRight,
    errorMm: wayRight ? answer.mm - alongMm : null,
  };
}
