import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import { printableReport } from '../page/printable-report.ts';
import { ReportArticle } from '../page/report-article.tsx';
import { areLabsOwn, type LimitShares, labsOwn } from './change-limits.ts';
import type { Checker } from './check-client.ts';
import { DropPlace } from './drop-place.tsx';
import type { CheckAnswer } from './messages.ts';
import { emptyState, type PageState, type TrialFile } from './page-state.ts';
import { PracticeDeskView } from './practice/practice-desk-view.tsx';
import { ServedPractice } from './practice/practice-source.ts';
import { readDropped } from './read-dropped.ts';
import { Saving } from './saving.tsx';
import { Setting } from './setting.tsx';
import { TeachingView } from './teaching-view.tsx';

interface AppProps {
  readonly checker: Checker;
  /** The part of the address after #: `practice`, with a token where the command serves it. */
  readonly opened: string;
}

/** The page: what is dropped on it is checked, and the report of the newest trial is shown; or practice. */
export function App({ checker: { check, practise }, opened }: AppProps) {
  const [isPractice, setPractice] = useState(opened.startsWith('practice'));
  const [served] = useState(() => (opened.startsWith('practice=') ? new ServedPractice(opened.slice(9)) : null));
  const [state, setState] = useState<PageState>(emptyState);
  const [limits, setLimits] = useState<LimitShares | null>(null);
  const [isOver, setOver] = useState(false);
  const shown = useRef<HTMLDivElement>(null);
  /** The newest question: an answer to an older one is dropped. */
  const newest = useRef(0);
  /** What was last asked for, also while its answer is not there yet: the next files are added to that. */
  const wanted = useRef(emptyState);
  /** Files are read one drop after the other, in their order. */
  const reading = useRef(Promise.resolve());

  /** Checks a trial against what is set, and shows the answer unless something newer was asked meanwhile. */
  async function judge(next: PageState, trial: TrialFile | null, shares: LimitShares | null): Promise<void> {
    newest.current += 1;
    const mine = newest.current;
    wanted.current = { ...next, trial };
    if (trial === null) {
      setState({ ...next, trial, answer: null });
      return;
    }
    const { markerSet, session } = next;
    const answer = await check({
      path: trial.name,
      bytes: trial.bytes,
      markerSet: markerSet.text === null ? { name: markerSet.name } : { text: markerSet.text },
      session: session?.text ?? null,
      limits: shares === null || areLabsOwn(shares) ? null : shares,
    });
    if (mine !== newest.current) return;
    setLimits(shares);
    setState({ ...next, trial, answer, isChanged: shares !== null && !areLabsOwn(shares) });
  }

  function take(files: readonly File[]): void {
    reading.current = reading.current.then(async () => {
      const before = wanted.current;
      const taken = await readDropped(files, before);
      if (taken.trial !== null && taken.trial !== before.trial) void showFromTop(taken);
      else void judge(taken, taken.trial, limits);
    });
  }

  /** From the top: what was found, and whatever could not be taken. */
  async function showFromTop(taken: PageState): Promise<void> {
    await judge(taken, taken.trial, null);
    shown.current?.focus({ preventScroll: true });
    scrollTo(0, 0);
  }

  // Before the page is painted: nothing that is seen on it can be missed by a drop.
  useLayoutEffect(() => {
    if (isPractice) return;
    const drop = (event: DragEvent) => {
      event.preventDefault();
      setOver(event.type === 'dragover');
      if (event.type === 'drop') take([...(event.dataTransfer?.files ?? [])]);
    };
    const kinds = ['dragover', 'dragleave', 'drop'] as const;
    for (const kind of kinds) addEventListener(kind, drop);
    return () => {
      for (const kind of kinds) removeEventListener(kind, drop);
    };
  });

  if (isPractice) {
    return (
      <main>
        <PracticeDeskView
          practise={practise}
          served={served}
          state={state}
          choose={setState}
          leave={() => setPractice(false)}
        />
      </main>
    );
  }
  const { answer, trial, isChanged } = state;
  const report = answer !== null && 'report' in answer ? answer.report : null;
  const faults = [...state.faults, ...(answer !== null && 'refused' in answer ? [sentenceFor(answer, state)] : [])];
  return (
    <main class={isOver ? 'over' : ''}>
      <div class="bar">
        <DropPlace isLarge={trial === null} take={take} />
        <Setting state={state} choose={(next) => judge(next, state.trial, limits)} />
        <button type="button" onClick={() => setPractice(true)}>
          Practise
        </button>
        {report === null || limits !== null ? null : <Saving report={report} />}
        {report === null ? null : (
          <button
            type="button"
            aria-expanded={limits !== null}
            onClick={() => judge(state, trial, limits === null ? labsOwn : null)}
          >
            {limits === null ? 'Teaching view' : 'Leave the teaching view'}
          </button>
        )}
      </div>
      <div role="alert" class="faults">
        {faults.map((fault) => (
          <p>{fault}</p>
        ))}
      </div>
      {report === null || limits === null ? null : (
        <TeachingView report={report} limits={limits} change={(shares) => judge(state, trial, shares)} />
      )}
      <div class={isChanged ? 'shown changed' : 'shown'} ref={shown} tabIndex={-1} aria-live="polite">
        {report === null ? null : (
          <ReportArticle
            report={printableReport(report, false)}
            showNames={false}
            id="report-1"
            level={1}
            stamp={isChanged ? notARecord : ''}
          />
        )}
      </div>
    </main>
  );
}

const notARecord = "Limits differ from the lab's set: not a record";

function sentenceFor(answer: Extract<CheckAnswer, { refused: string }>, { markerSet, session }: PageState): string {
  if (answer.refused === 'marker-set') return `Marker set ${markerSet.name}: ${answer.message}`;
  if (answer.refused === 'session') return `Session ${session?.name ?? ''}: ${answer.message}`;
  return `The check stopped: ${answer.message}. Report it, and rely on palpation and the protocol meanwhile.`;
}
