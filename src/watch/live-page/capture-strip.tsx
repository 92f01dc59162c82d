import type { Captures } from '../../core/captures/capture-session.ts';
import type { Verdict } from '../../core/report/report.ts';
import { verdictWords } from './capture-words.ts';

/** As many as fit on a line beside each other. */
const mostShown = 6;

/** The last captures of this patient in one line; the whole list stands below the report. */
export function CaptureStrip({ captures }: { readonly captures: Captures }) {
  const newest = captures.at(-1);
  const shown = captures.filter(({ person }) => person === newest?.person).slice(-mostShown);
  if (shown.length < 2) return null;
  return (
    <ol class="strip" aria-label="Captures of this patient">
      {shown.map(({ number, report: { verdict } }) => (
        <li>
          <a
            href={`/capture/${number}`}
            id={`strip-${number}`}
            aria-current={number === newest!.number ? 'true' : undefined}
          >
            <Mark verdict={verdict} />
            {`${number} ${verdictWords[verdict]}`}
          </a>
        </li>
      ))}
    </ol>
  );
}

/** The shape of the verdict, as the headline of a report has it. */
function Mark({ verdict }: { readonly verdict: Verdict }) {
  return (
    <svg class={`mark ${verdict}`} viewBox="0 0 48 48" aria-hidden="true">
      {verdict === 'ready' ? (
        <circle cx="24" cy="24" r="23" />
      ) : verdict === 'adjust' ? (
        <path class="plate" d="M24 1l23 23-23 23L1 24Z" />
      ) : (
        <rect x="2" y="2" width="44" height="44" rx="6" />
      )}
    </svg>
  );
}
