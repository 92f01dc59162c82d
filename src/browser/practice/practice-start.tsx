import { useState } from 'preact/hooks';
import type { BeginOrder } from '../messages.ts';

export interface Wanted {
  readonly trainee: string;
  /** Lines of a history that was loaded. */
  readonly history: string;
  readonly files: BeginOrder['begin']['files'];
}

interface PracticeStartProps {
  readonly wanted: Wanted;
  /** Nothing was answered on this page yet. */
  readonly isFresh: boolean;
  readonly begin: (wanted: Wanted) => void;
  readonly seeRecord: (wanted: Wanted) => void;
  readonly compare: (wanted: Wanted, files: readonly { name: string; bytes: Uint8Array }[]) => void;
}

/** Larger files are no trial that anybody stands in, or no history. */
const mostBytes = 200_000_000;

/** What to practise on, and whose history it is. */
export function PracticeStart({ wanted, isFresh, begin, seeRecord, compare }: PracticeStartProps) {
  const [trainee, setTrainee] = useState(wanted.trainee);
  const [history, setHistory] = useState(wanted.history);
  const [said, say] = useState('');
  const code = trainee.trim();
  const isCode = /^\S{0,64}$/.test(code);
  const load = async (files: FileList | null) => {
    const [file] = files ?? [];
    if (file === undefined) return;
    const text = file.size > mostBytes ? '' : await file.text();
    setHistory(text);
    say(`${text.split('\n').filter((line) => line.includes('setsquare-practice/1')).length} lines loaded.`);
  };
  const drop = async (files: FileList | null) => {
    const all = [...(files ?? [])].filter(({ size }) => size <= mostBytes);
    const trials = all.filter(({ name }) => !/\.json$/i.test(name));
    const read = await Promise.all(
      trials.map(async (file) => {
        const session = all.find(({ name }) => name === `${file.name.replace(/\.c3d$/i, '')}.session.json`);
        return { bytes: new Uint8Array(await file.arrayBuffer()), session: (await session?.text()) ?? null };
      }),
    );
    if (read.length > 0) begin({ trainee: code, history, files: read });
  };
  const dropPlacings = async (files: FileList | null) => {
    const chosen = [...(files ?? [])].filter(({ size }) => size <= mostBytes);
    const read = chosen.map(async (file) => ({ name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) }));
    if (chosen.length > 0) compare({ trainee: code, history, files: null }, await Promise.all(read));
  };
  return (
    <section class="practice start" aria-labelledby="practice-heading">
      <h1 id="practice-heading">Practise your eye</h1>
      <p>
        Eight standing trials, about half of them with nothing to move. Look at each, write down your verdict, and only
        then see what is right.
      </p>
      <div class="start-with">
        <label>
          Your code (never a name; may be left empty)
          <input
            type="text"
            value={trainee}
            autocomplete="off"
            aria-invalid={!isCode}
            onInput={({ currentTarget }) => setTrainee(currentTarget.value)}
          />
        </label>
        <label class="button quiet">
          Load your history
          <input type="file" accept=".jsonl" onChange={({ currentTarget }) => load(currentTarget.files)} />
        </label>
        <span role="status">{isCode ? said : 'A code has no spaces.'}</span>
      </div>
      <div class="start-with">
        <button
          type="button"
          class="large primary"
          disabled={!isCode}
          onClick={() => begin({ trainee: code, history, files: null })}
        >
          Begin with made trials
        </button>
        <label class="button">
          Practise on your own trials
          <input type="file" multiple accept=".c3d,.json" onChange={({ currentTarget }) => drop(currentTarget.files)} />
        </label>
      </div>
      <div class="start-with">
        <button
          type="button"
          disabled={!isCode || code === '' || (history === '' && isFresh)}
          onClick={() => seeRecord({ trainee: code, history, files: null })}
        >
          See your record
        </button>
        <label class="button quiet">
          Compare repeated placings
          <input
            type="file"
            multiple
            accept=".c3d"
            onChange={({ currentTarget }) => dropPlacings(currentTarget.files)}
          />
        </label>
      </div>
      <p class="small">
        Made trials are invented people with a known fault or none. On your own trials (.c3d, each with its session file
        if you like) nobody knows the truth: the page shows what the program would do. Your record needs your code and
        your history. Repeated placings are standing trials of one subject whom you marked anew each time, skin marks
        removed. Nothing is sent anywhere.
      </p>
    </section>
  );
}
