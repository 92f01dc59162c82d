import type { Capture } from '../../core/captures/capture-session.ts';
import { escapeControls } from '../../core/report/escape-controls.ts';
import { ownName } from '../../core/report/own-name.ts';
import { headlineParts } from '../../core/report/text-headline.ts';
import { verdictWords } from './capture-words.ts';
import type { LiveView } from './live-view.ts';

/** The captures of the session, the newest first; each leads to its whole report. */
export function CaptureList({ view }: { readonly view: LiveView }) {
  const captures = [...view.state.captures].reverse();
  return (
    <section class="captures" aria-labelledby="captures-heading">
      <h2 id="captures-heading">Captures of this session</h2>
      <ol reversed>
        {captures.map((capture, index) => (
          <>
            <Row capture={capture} view={view} />
            {captures[index + 1] !== undefined && captures[index + 1]!.person !== capture.person ? (
              <li class="another">Above: another patient</li>
            ) : null}
          </>
        ))}
      </ol>
    </section>
  );
}

function Row({ capture, view }: { readonly capture: Capture; readonly view: LiveView }) {
  const { number, report, corrections, written } = capture;
  const notes = [
    view.times.get(number) ?? '',
    report.trial.sha256.slice(0, 8),
    view.showNames ? escapeControls(ownName(capture.path)) : '',
    corrections > 0 ? `correction ${corrections}` : '',
    written > 1 ? `written ${written} times` : '',
  ];
  return (
    <li>
      <a href={`/capture/${number}`} id={`capture-${number}`}>
        <b>{number}</b>
        <span class={`status ${report.verdict}`}>{verdictWords[report.verdict]}</span>
        <span class="found">{headlineParts(report).found}</span>
        <span class="notes">{notes.filter((note) => note !== '').join(' · ')}</span>
      </a>
    </li>
  );
}
