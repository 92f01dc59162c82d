import type { Report, Verdict } from '../../core/report/report.ts';
import { headlineParts } from '../../core/report/text-headline.ts';
import { Heading, type Level } from '../heading.tsx';

/** A shape beside the words, different for each verdict, for whoever sees it from afar. */
const marks: Readonly<Record<Verdict, { readonly path: string; readonly word: string }>> = {
  ready: { path: 'M10 25l10 10 19-22', word: 'Ready' },
  adjust: { path: 'M24 9v19M24 36v.5', word: 'To do' },
  'not-assessable': { path: 'M12 12l24 24M36 12L12 36', word: 'Cannot be judged' },
};

/** What was found and how much could be checked, never the one without the other. */
export function Headline({
  report,
  id,
  level,
}: {
  readonly report: Report;
  readonly id: string;
  readonly level: Level;
}) {
  const { restless, found, coverage, caution } = headlineParts(report);
  const { verdict } = report;
  const { rules, assessed } = report.coverage;
  return (
    <header class={`headline ${verdict}`}>
      <svg class="mark" viewBox="0 0 48 48" role="img" aria-label={marks[verdict].word}>
        {verdict === 'ready' ? (
          <circle cx="24" cy="24" r="23" />
        ) : verdict === 'adjust' ? (
          <path class="plate" d="M24 1l23 23-23 23L1 24Z" />
        ) : (
          <rect x="2" y="2" width="44" height="44" rx="6" />
        )}
        <path class="sign" d={marks[verdict].path} />
      </svg>
      <div>
        <Heading level={level} id={id}>
          {found}
        </Heading>
        {restless === '' ? null : <p class="restless">{restless}</p>}
        <p class="coverage">
          <svg viewBox="0 0 200 16" aria-hidden="true">
            <rect class="whole" width="200" height="16" rx="8" />
            {assessed > 0 ? (
              <rect class="part" width={Math.max(16, Math.round((200 * assessed) / rules))} height="16" rx="8" />
            ) : null}
          </svg>
          <span>{coverage}</span>
        </p>
        {caution === '' ? null : <p class="caution">{caution}</p>}
      </div>
    </header>
  );
}
