import { useEffect, useState } from 'preact/hooks';
import type { ShownTrial, ToldTrial } from '../../core/practice/shown-trial.ts';
import type { PracticeAnswer, PracticeOrder } from '../messages.ts';
import type { PageState } from '../page-state.ts';
import { saveFile } from '../save-file.ts';
import { Setting } from '../setting.tsx';
import type { ServedPractice } from './practice-source.ts';
import { PracticeStart, type Wanted } from './practice-start.tsx';
import { PracticeView } from './practice-view.tsx';

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
  | { readonly kind: 'done'; readonly told: ToldTrial };

/** Practice from the first choice to the summary. */
export function PracticeDeskView({ practise, served, state, choose, leave }: PracticeDeskViewProps) {
  const [stage, go] = useState<Stage>({ kind: 'start' });
  const [fault, setFault] = useState('');
  const [wanted, want] = useState<Wanted>({ trainee: '', history: '', files: null });
  const [lines, setLines] = useState<readonly string[]>([]);
  const [rounds, setRounds] = useState(0);

  const trying = async (begin: () => Promise<ShownTrial | null>): Promise<void> => {
    setFault('');
    try {
      const first = await begin();
      if (first === null) throw new Error('Every trial of this session is answered; begin another one.');
      setRounds(rounds + 1);
      go({ kind: 'trials', first, round: rounds + 1 });
      scrollTo(0, 0);
    } catch (error) {
      setFault(error instanceof Error ? error.message : String(error));
    }
  };
  const begin = (next: Wanted) => {
    want(next);
    void trying(async () => {
      const { markerSet } = state;
      const told = await practise({
        begin: {
          files: next.files,
          markerSet: markerSet.text === null ? { name: markerSet.name } : { text: markerSet.text },
          seed: crypto.getRandomValues(new Uint32Array(1))[0]! >>> 1,
          trials: trialsOfSession,
          trainee: next.trainee === '' ? 'nobody' : next.trainee,
          history: [next.history, ...lines].join('\n'),
          at: new Date().toISOString(),
        },
      });
      if ('failed' in told) throw new Error(told.failed);
      return 'shown' in told ? told.shown : null;
    });
  };
  useEffect(() => {
    if (served !== null) void trying(() => served.current());
  }, [served]);

  const answer = async (number: number, written: ToldTrial['written']): Promise<ToldTrial> => {
    if (served !== null) return served.answer(number, written);
    const told = await practise({ verdict: { written, at: new Date().toISOString() } });
    if ('failed' in told) throw new Error(told.failed);
    if (!('told' in told)) throw new Error('No session is under way.');
    setLines((kept) => [...kept, ...told.lines]);
    return told.told;
  };
  const save = () =>
    saveFile(
      'practice-history.jsonl',
      'application/jsonl',
      [wanted.history.trimEnd(), ...lines, '']
        .filter((line, at, all) => line !== '' || at === all.length - 1)
        .join('\n'),
    );
  const again = () => (served === null ? begin(wanted) : void trying(() => served.begin()));
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
      {stage.kind === 'start' && served === null ? <PracticeStart wanted={wanted} begin={begin} /> : null}
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
      {stage.kind === 'done' ? <Summary told={stage.told} again={again} isSaved={served !== null} /> : null}
    </>
  );
}

/** As on the command line, where nothing else is asked for. */
const trialsOfSession = 8;

function Summary({ told, again, isSaved }: { told: ToldTrial; again: () => void; isSaved: boolean }) {
  return (
    <section class="practice summary" aria-labelledby="summary-heading">
      <h1 id="summary-heading" tabIndex={-1} ref={(heading) => heading?.focus()}>
        This session
      </h1>
      {told.summary?.says.map((says) => (
        <p>{says}</p>
      ))}
      <p class="small">
        {isSaved
          ? 'Where a trainee is named on the command line, the answers are in the history file.'
          : 'The history is in this page alone until you save it: load it next time, and weak landmarks come back more often.'}
      </p>
      <button type="button" class="large primary" onClick={again}>
        Another session
      </button>
    </section>
  );
}
