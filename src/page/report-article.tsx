import { walkingTrials, whenToStop } from '../core/report/advice.ts';
import { ownName } from '../core/report/own-name.ts';
import type { Report } from '../core/report/report.ts';
import { ruleName } from '../core/report/rule-name.ts';
import { sentence } from '../core/report/sentence.ts';
import { after, stepsAtOnce } from '../core/report/step-words.ts';
import { below, Heading, type Level } from './heading.tsx';
import { Angles } from './sections/angles.tsx';
import { AtStake } from './sections/at-stake.tsx';
import { Headline } from './sections/headline.tsx';
import { Measurements } from './sections/measurements.tsx';
import { Plates } from './sections/plates.tsx';
import { FirstProblems, OtherProblems } from './sections/problems.tsx';
import { Provenance } from './sections/provenance.tsx';
import { ReaderNote } from './sections/reader-note.tsx';
import { NotChecked, NotPassed, Passed } from './sections/rules.tsx';
import { Stance } from './sections/stance.tsx';
import { Step } from './sections/step.tsx';
import { Sway } from './sections/sway.tsx';
import { Views } from './sections/views.tsx';
import { moreSteps, trialName, windowWords } from './words.ts';

interface ReportArticleProps {
  /** As `printableReport` gives it. */
  readonly report: Report;
  readonly showNames: boolean;
  /** Starts every id, so that several reports fit on one page. */
  readonly id: string;
  readonly level: Level;
  /** Stands over the report where it is no record; empty where it is one. */
  readonly stamp?: string;
}

/** One report: what to do on top, to be seen from afar; everything else below it, to be looked up. */
export function ReportArticle({ report, showNames, id, level, stamp = '' }: ReportArticleProps) {
  const under = below(level);
  const shared = { report, level: under };
  return (
    <article class="report" id={id} aria-labelledby={`${id}-found`}>
      {stamp === '' ? null : <p class="stamp">{stamp}</p>}
      <div class="summary">
        <Headline report={report} id={`${id}-found`} level={level} />
        <p class="identity">{identity(report, showNames)}</p>
        <FirstProblems report={report} />
        <Steps report={report} id={`${id}-step`} level={under} />
        <div class="cautions">
          <p>{whenToStop}</p>
          {mayMove(report) ? <p>{walkingTrials}</p> : null}
        </div>
      </div>
      <Further {...shared} id={`${id}-further`} />
      <Notes {...shared} id={`${id}-notes`} />
      <Views {...shared} id={`${id}-views`} />
      <AtStake {...shared} id={`${id}-at-stake`} />
      <NotPassed {...shared} id={`${id}-not-passed`} />
      <NotChecked {...shared} id={`${id}-not-checked`} />
      <OtherProblems {...shared} id={`${id}-problems`} />
      <Stance {...shared} id={`${id}-stance`} />
      <Angles {...shared} id={`${id}-angles`} />
      <Measurements {...shared} id={`${id}-measurements`} />
      <Plates {...shared} id={`${id}-plates`} />
      <Sway {...shared} id={`${id}-sway`} />
      <Passed {...shared} id={`${id}-passed`} />
      <ReaderNote {...shared} id={`${id}-reader-note`} />
      <Provenance {...shared} showNames={showNames} id={`${id}-provenance`} />
    </article>
  );
}

/** Whether any step touches a marker. */
function mayMove({ moves }: Report): boolean {
  return moves.some(({ action }) => action === 'move' || action === 'palpate-again');
}

function identity(report: Report, showNames: boolean): string {
  const { subject, trial, markerSet } = report;
  return [
    subject.code === null ? 'Subject without a code' : `Subject ${subject.code}`,
    ...(showNames ? [ownName(trial.path)] : []),
    trialName(report),
    windowWords(report),
    markerSet.name,
  ]
    .filter((part) => part !== '')
    .join(' · ');
}

interface PartProps {
  readonly report: Report;
  readonly id: string;
  readonly level: Level;
}

function Steps({ report, id, level }: PartProps) {
  const more = report.moves.length - stepsAtOnce;
  if (report.moves.length === 0) return null;
  return (
    <>
      <ol class="steps">
        {report.moves.slice(0, stepsAtOnce).map((move) => (
          <Step report={report} move={move} id={`${id}${move.step}`} level={level} />
        ))}
      </ol>
      {more > 0 ? <p class="more">{moreSteps(more)}</p> : null}
    </>
  );
}

function Further({ report, id, level }: PartProps) {
  const further = report.moves.slice(stepsAtOnce);
  const failing = report.stillFailing.map((rule) => {
    const known = report.rules.find((candidate) => candidate.id === rule);
    return known ? ruleName(known) : rule;
  });
  if (further.length === 0 && failing.length === 0) return null;
  return (
    <section aria-labelledby={`${id}-heading`}>
      <Heading level={level} id={`${id}-heading`}>
        {further.length > 0 ? 'Further steps, if the next capture still asks for them' : 'What no step puts right'}
      </Heading>
      <ol start={stepsAtOnce + 1}>
        {further.map((move) => (
          <li>{`${sentence(move.instruction)} ${after(move)}`.trim()}</li>
        ))}
      </ol>
      {failing.length === 0 ? null : <p>{`Still failing after every step: ${failing.join('; ')}.`}</p>}
    </section>
  );
}

function Notes({ report, id, level }: PartProps) {
  if (report.notes.length === 0) return null;
  return (
    <section aria-labelledby={`${id}-heading`}>
      <Heading level={level} id={`${id}-heading`}>
        Notes
      </Heading>
      <ul>
        {report.notes.map(({ message }) => (
          <li>{sentence(message)}</li>
        ))}
      </ul>
    </section>
  );
}
