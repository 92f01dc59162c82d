import { useEffect, useState } from 'preact/hooks';
import type { ToldRepeat } from '../../core/practice/repeat-rows.ts';
import type { ShownTrial, ToldTrial } from '../../core/practice/shown-trial.ts';
import type { TraineeRecord } from '../../core/practice/trainee-record.ts';
import { RecordArticle } from '../../page/practice/record-article.tsx';
import { RepeatArticle } from '../../page/practice/repeat-article.tsx';
import { localDay, localTime } from '../../practice/local-time.ts';
import type { PracticeAnswer, PracticeOrder } from '../messages.ts';
import type { PageState } from '../page-state.ts';
import { saveFile } from '../save-file.ts';
import { Setting } from '../setting.tsx';
import type { ServedPractice } from './practice-source.ts';
import { PracticeStart, type Wanted } from './practice-start.tsx';
import { PracticeView } from './practice-view.tsx';
import { PrintedView } from './printed-view.tsx';
import { SessionEnd } from './session-end.tsx';
import { type SignedOff, SignOffForm } from './sign-off-form.tsx';

interface PracticeDeskViewProps {
  readonly practise: (order: PracticeOrder) => Promise<PracticeAnswer>;
  /** Where the command keeps the history; null on a page by itself. */
  readonly served: ServedPractice | null;
  readonly state: PageState;
  readonly choose: (state: PageState) => void;
  readonly leave: () => void;
}

type Stage =
  | { readonly kind: 'start' }
  | { readonly kind: 'trials'; readonly first: ShownTrial; readonly round: number }
  | { readonly kind: 'done'; readonly told: ToldTrial }
  | { readonly kind: 'record'; readonly record: TraineeRecord; readonly from: Stage }
  | { readonly kind: 'repeat'; readonly told: ToldRepeat; readonly isKept: boolean };

/** Practice from the first choice to the summary. */
export function PracticeDeskView({ practise, served, state, choose, leave }: PracticeDeskViewProps) {
  const [stage, go] = useState<Stage>({ kind: 'start' });
  const [fault, setFault] = useState('');
  const [said, say] = useState('');
  const [wanted, want] = useState<Wanted>({ trainee: '', history: '', files: null });
  const [lines, setLines] = useState<readonly string[]>([]);
  const [rounds, setRounds] = useState(0);

  const trying = async (next: () => Promise<Stage>): Promise<void> => {
    setFault('');
    try {
      go(await next());
      scrollTo(0, 0);
    } catch (error) {
      setFault(error instanceof Error ? error.message : String(error));
    }
  };
  const beginning = (begin: () => Promise<ShownTrial | null>) =>
    trying(async () => {
      const first = await begin();
      if (first === null) throw new Error('Every trial of this session is answered; begin another one.');
      setRounds(rounds + 1);
      return { kind: 'trials', first, round: rounds + 1 };
    });
  const { markerSet } = state;
  const named = markerSet.text === null ? { name: markerSet.name } : { text: markerSet.text };
  /** What the worker answers, or its failure. */
  const ask = async (order: PracticeOrder): Promise<Exclude<PracticeAnswer, { failed: string }>> => {
    const told = await practise(order);
    if ('failed' in told) throw new Error(told.failed);
    return told;
  };
  const historyWith = (more: readonly string[]) => [wanted.history, ...lines, ...more].join('\n');
  const begin = (next: Wanted) => {
    want(next);
    void beginning(async () => {
      const told = await ask({
        begin: {
          files: next.files,
          markerSet: named,
          seed: crypto.getRandomValues(new Uint32Array(1))[0]! >>> 1,
          trials: trialsOfSession,
          trainee: next.trainee === '' ? 'nobody' : next.trainee,
          history: [next.history, ...lines].join('\n'),
          at: localTime(new Date()),
        },
      });
      if (!('shown' in told)) return null;
      const { leftOut } = told;
      say(
        leftOut === 0
          ? ''
          : `${leftOut} of your trials left out: nobody standing, labels to put right, a stance to repeat.`,
      );
      return told.shown;
    });
  };
  useEffect(() => {
    if (served !== null) void beginning(() => served.current());
  }, [served]);

  const answer = async (number: number, written: ToldTrial['written']): Promise<ToldTrial> => {
    if (served !== null) return served.answer(number, written);
    const told = await ask({ verdict: { written, at: localTime(new Date()) } });
    if (!('told' in told)) throw new Error('No session is under way.');
    setLines((kept) => [...kept, ...told.lines]);
    return told.told;
  };
  const recordBy = async (history: string, trainee: string): Promise<TraineeRecord> => {
    if (served !== null) return served.record();
    const told = await ask({ record: { markerSet: named, history, trainee, asOf: localDay(new Date()) } });
    if (!('record' in told)) throw new Error('There is no record.');
    return told.record;
  };
  const seeRecord = (of: Wanted) => {
    want(of);
    void trying(async () => ({
      kind: 'record',
      record: await recordBy([of.history, ...lines].join('\n'), of.trainee),
      from: stage,
    }));
  };
  const sign = async ({ landmark, ...signed }: SignedOff): Promise<void> => {
    if (stage.kind !== 'record') return;
    let record: TraineeRecord;
    if (served !== null) record = await served.signOff({ landmark, ...signed });
    else {
      const on = localDay(new Date());
      const told = await ask({
        signOff: {
          markerSet: named,
          history: historyWith([]),
          wanted: { trainee: wanted.trainee, landmarks: [landmark], on, ...signed },
        },
      });
      const added = 'signed' in told ? told.signed : [];
      setLines((kept) => [...kept, ...added]);
      record = await recordBy(historyWith(added), wanted.trainee);
    }
    go({ ...stage, record });
  };
  const compare = (of: Wanted, files: readonly { name: string; bytes: Uint8Array }[]) => {
    want(of);
    void trying(async () => {
      const order = { markerSet: named, files, trainee: of.trainee, at: localTime(new Date()) };
      const told = await ask({ repeat: order });
      if (!('repeated' in told)) throw new Error('Nothing was compared.');
      setLines((kept) => [...kept, ...told.lines]);
      return { kind: 'repeat', told: told.repeated, isKept: told.lines.length > 0 };
    });
  };
  const save = () =>
    saveFile(
      'practice-history.jsonl',
      'application/jsonl',
      [wanted.history.trimEnd(), ...lines, '']
        .filter((line, at, all) => line !== '' || at === all.length - 1)
        .join('\n'),
    );
  const again = () => (served === null ? begin(wanted) : void beginning(() => served.begin()));
  return (
    <>
      <div class="bar">
        {served === null && stage.kind === 'start' ? <Setting state={state} choose={choose} /> : null}
        <div class="saving">
          {lines.length === 0 ? null : (
            <button type="button" onClick={save}>
              Save the history
            </button>
          )}
          <button type="button" onClick={leave}>
            Check a trial instead
          </button>
        </div>
      </div>
      <div role="alert" class="faults">
        {fault === '' ? null : <p>{fault}</p>}
      </div>
      <p role="status" class="small left-out">
        {stage.kind === 'trials' ? said : ''}
      </p>
      {stage.kind === 'start' && served === null ? (
        <PracticeStart
          wanted={wanted}
          isFresh={lines.length === 0}
          begin={begin}
          seeRecord={seeRecord}
          compare={compare}
        />
      ) : null}
      {stage.kind === 'start' && served !== null && fault !== '' ? (
        <button type="button" class="large primary" onClick={again}>
          Begin another session
        </button>
      ) : null}
      {stage.kind === 'trials' ? (
        <PracticeView
          key={stage.round}
          first={stage.first}
          answer={answer}
          finish={(told) => go({ kind: 'done', told })}
        />
      ) : null}
      {stage.kind === 'done' ? (
        <SessionEnd
          told={stage.told}
          again={again}
          seeRecord={() => seeRecord(wanted)}
          isSaved={served !== null}
          hasCode={served !== null || wanted.trainee !== ''}
        />
      ) : null}
      {stage.kind === 'record' ? (
        <PrintedView back={() => go(stage.from)} said="">
          <RecordArticle record={stage.record} />
          <SignOffForm record={stage.record} sign={sign} />
        </PrintedView>
      ) : null}
      {stage.kind === 'repeat' ? (
        <PrintedView back={() => go({ kind: 'start' })} said={stage.isKept ? repeatKept : repeatNotKept}>
          <RepeatArticle told={stage.told} />
        </PrintedView>
      ) : null}
    </>
  );
}

const repeatKept = 'Added to your history; save it before you close the page.';
const repeatNotKept = 'Not added to a history: it needs your code, and no doubt about the placings.';
/** As on the command line, where nothing else is asked for. */
const trialsOfSession = 8;
