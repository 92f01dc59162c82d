import { render } from 'preact-render-to-string';
import { type Capture, hasStoodLongEnough } from '../../core/captures/capture-session.ts';
import { whenToStop } from '../../core/report/advice.ts';
import { counted } from '../../core/report/counted.ts';
import { escapeControls } from '../../core/report/escape-controls.ts';
import { ownName } from '../../core/report/own-name.ts';
import { headlineParts } from '../../core/report/text-headline.ts';
import { renderReportArticle } from '../../page/render-report-page.tsx';
import { CaptureList } from './capture-list.tsx';
import { CaptureStrip } from './capture-strip.tsx';
import { Comparison } from './comparison.tsx';
import { type LiveView, newestCapture } from './live-view.ts';

/** The live page whole, as a browser first gets it. Its script then asks for `renderLive` whenever something changes. */
export function renderLivePage(view: LiveView): string {
  const page = (
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="referrer" content="no-referrer" />
        <title>{titleOf(view)}</title>
        <link rel="stylesheet" href="/live-page.css" />
        <script src="/live-page.js" defer />
      </head>
      <body id="top">
        <a class="skip" href="#live">
          Skip to the newest capture
        </a>
        <p id="connection" class="connection" role="alert" hidden />
        <p id="announcement" class="announcement" role="status" aria-live="polite" />
        <main id="live" dangerouslySetInnerHTML={{ __html: renderLive(view) }} />
        <a id="fresh" class="fresh" href="#top" hidden>
          New on top
        </a>
      </body>
    </html>
  );
  return `<!doctype html>${render(page)}\n`;
}

/** What changes on the live page, in one element that says which revision it is and what is to be announced. */
export function renderLive(view: LiveView): string {
  const capture = newestCapture(view);
  return render(
    <div
      class="live"
      data-revision={view.revision}
      data-run={view.run}
      data-title={titleOf(view)}
      data-capture={capture === null ? '' : `${capture.number}.${capture.written}`}
      data-says={capture === null ? '' : announcementOf(capture)}
    >
      <Bar view={view} capture={capture} />
      <CaptureStrip captures={view.state.captures} />
      {capture === null ? <Waiting view={view} /> : <Shown capture={capture} view={view} />}
    </div>,
  );
}

function Shown({ capture, view: { showNames, ...view } }: { readonly capture: Capture; readonly view: LiveView }) {
  const { report } = capture;
  return (
    <>
      {hasStoodLongEnough(capture) && report.verdict !== 'ready' ? <Stop capture={capture} /> : null}
      <Comparison capture={capture} />
      <div dangerouslySetInnerHTML={{ __html: renderReportArticle(report, 'report', { showNames }) }} />
      <CaptureList view={{ showNames, ...view }} />
    </>
  );
}

/** Which capture it is and what the program is doing, in one line. */
function Bar({ view, capture }: { readonly view: LiveView; readonly capture: Capture | null }) {
  const time = capture === null ? undefined : view.times.get(capture.number);
  const parts =
    capture === null
      ? []
      : [
          `Capture ${capture.number}${time === undefined ? '' : `, ${time}`}`,
          ...(view.showNames ? [escapeControls(ownName(capture.path))] : []),
          capture.corrections === 0 ? '' : `${counted(capture.corrections, 'correction')} so far`,
        ];
  return (
    <div class="bar">
      <p class="which">{parts.filter((part) => part !== '').join(' · ')}</p>
      <p class={view.state.folder === 'missing' ? 'doing missing' : 'doing'}>{doing(view)}</p>
    </div>
  );
}

function doing({ state }: LiveView): string {
  if (state.folder === 'missing') return 'The folder is not there: waiting for it';
  if (state.locked > 0) return 'A trial is kept by another program: waiting for it';
  if (state.coming > 0) return 'A trial is coming';
  return 'Waiting for the next standing trial';
}

function Waiting({ view: { state, names } }: { readonly view: LiveView }) {
  return (
    <section class="waiting">
      <h1>{state.folder === 'missing' ? 'The folder is not there yet' : 'No standing trial yet'}</h1>
      <p>The report appears here as soon as a standing trial is written.</p>
      <p class="small">{`Watched for: ${escapeControls(names.join(', '))}.`}</p>
      {state.leftAlone > 0 ? (
        <p class="small">{`${counted(state.leftAlone, 'trial')} that ${state.leftAlone === 1 ? 'was' : 'were'} there before ${state.leftAlone === 1 ? 'is' : 'are'} left alone.`}</p>
      ) : null}
      {state.passedOver > 0 ? (
        <p class="small">{`${counted(state.passedOver, 'trial')} of another name passed over.`}</p>
      ) : null}
    </section>
  );
}

function Stop({ capture }: { readonly capture: Capture }) {
  return (
    <section class="stop" aria-labelledby="stop-heading">
      <h2 id="stop-heading">{`${counted(capture.corrections, 'correction')} made: stop here`}</h2>
      <p>Offer the chair, and keep what there is. What stands below is for the record.</p>
    </section>
  );
}

function titleOf(view: LiveView): string {
  const capture = newestCapture(view);
  return capture === null
    ? 'Waiting for a standing trial'
    : `${capture.number}: ${headlineParts(capture.report).found}`;
}

/** What a screen reader says when a capture comes. */
function announcementOf(capture: Capture): string {
  const { found, coverage } = headlineParts(capture.report);
  const steps = capture.against?.comparison.steps.map(({ says }) => says) ?? [];
  const stop = hasStoodLongEnough(capture) && capture.report.verdict !== 'ready' ? [whenToStop] : [];
  return escapeControls([`Capture ${capture.number}.`, found, coverage, ...steps, ...stop].join(' '));
}
