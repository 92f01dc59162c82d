import { counted } from '../../core/report/counted.ts';
import type { Problem, Report } from '../../core/report/report.ts';
import { sentence } from '../../core/report/sentence.ts';
import { openProblems, swapsToRelabel } from '../../core/report/text-headline.ts';
import { Heading, type Level } from '../heading.tsx';

/** A wrong marker set can leave every marker missing: the page stays readable. */
const atOnce = 3;

/** Problems that stand above the steps: what a person settles first and no step says. */
function firstProblems(report: Report): Problem[] {
  return openProblems(report).slice(0, atOnce);
}

export function FirstProblems({ report }: { readonly report: Report }) {
  const first = firstProblems(report);
  const more = openProblems(report).length - atOnce;
  if (first.length === 0) return null;
  return (
    <ul class="first-problems">
      {first.map((problem) => (
        <Told problem={problem} />
      ))}
      {more > 0 ? <li>{`${counted(more, 'more problem')}: see below.`}</li> : null}
    </ul>
  );
}

export function OtherProblems({
  report,
  id,
  level,
}: {
  readonly report: Report;
  readonly id: string;
  readonly level: Level;
}) {
  // Exchanged labels are told with their step.
  const first = [...firstProblems(report), ...swapsToRelabel(report)];
  const others = report.problems.filter((problem) => !first.includes(problem));
  if (others.length === 0) return null;
  return (
    <section aria-labelledby={`${id}-heading`}>
      <Heading level={level} id={`${id}-heading`}>
        {`Problems of the trial (${others.length})`}
      </Heading>
      <ul class="problems">
        {others.map((problem) => (
          <Told problem={problem} />
        ))}
      </ul>
    </section>
  );
}

function Told({ problem }: { readonly problem: Problem }) {
  return (
    <li class={problem.severity}>
      <p>
        <span class="status">{problem.severity}</span> {sentence(problem.message)}
      </p>
      <p class="remedy">{sentence(problem.remedy)}</p>
    </li>
  );
}
