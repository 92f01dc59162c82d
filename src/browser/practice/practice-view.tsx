import { useEffect, useRef, useState } from 'preact/hooks';
import type { WrittenVerdict } from '../../core/practice/score-verdict.ts';
import type { ShownTrial, ToldTrial } from '../../core/practice/shown-trial.ts';
import { shiftAlong } from '../../core/practice/skin-ways.ts';
import type { Place } from '../../page/figure/views.ts';
import { FigureNumbers } from './figure-numbers.tsx';
import { FigureViewer, type ToldMove } from './figure-viewer.tsx';
import { ToldPanel } from './told-panel.tsx';
import { emptyRow, type Row, VerdictForm } from './verdict-form.tsx';

interface PracticeViewProps {
  readonly first: ShownTrial;
  readonly answer: (number: number, written: WrittenVerdict) => Promise<ToldTrial>;
  readonly finish: (told: ToldTrial) => void;
}

/** One trial after the other: look, write down, be told. */
export function PracticeView({ first, answer, finish }: PracticeViewProps) {
  const [shown, show] = useState(first);
  const [told, tell] = useState<ToldTrial | null>(null);
  const [rows, change] = useState<readonly Row[]>([emptyRow]);
  const [fault, setFault] = useState('');
  const [isBusy, setBusy] = useState(false);
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), [shown]);

  async function write(written: WrittenVerdict): Promise<void> {
    setBusy(true);
    setFault('');
    try {
      tell(await answer(shown.number, written));
    } catch (error) {
      setFault(error instanceof Error ? error.message : String(error));
    } finally {
      setBusy(false);
    }
  }

  function goOn(): void {
    if (told!.next === null) {
      finish(told!);
      return;
    }
    show(told!.next);
    tell(null);
    change([emptyRow]);
  }

  /** A tap names the marker in the last row. */
  const choose = (marker: string) =>
    change(rows.map((row, at) => (at === rows.length - 1 ? { ...row, marker, way: '' } : row)));
  const chosen = rows.at(-1)!.marker;
  return (
    <section class="practice" aria-labelledby="trial-heading">
      <h1 id="trial-heading" tabIndex={-1} ref={heading}>{`Trial ${shown.number} of ${shown.of}`}</h1>
      <div role="alert" class="faults">
        {fault === '' ? null : <p>{fault}</p>}
      </div>
      <div class="desk">
        <div>
          <FigureViewer
            key={`${shown.number} ${told === null ? 'asked' : 'told'}`}
            patient={shown.figure}
            chosen={told === null ? chosen : (movesOf(told)[0]?.marker ?? '')}
            choose={told === null ? choose : null}
            told={told === null ? [] : movesOf(told)}
            written={told === null ? [] : writtenIn(told, shown)}
          />
          <FigureNumbers shown={shown} />
        </div>
        {told === null ? (
          <VerdictForm choices={shown.choices} rows={rows} change={change} write={write} isBusy={isBusy} />
        ) : (
          <ToldPanel told={told} goOn={goOn} />
        )}
      </div>
    </section>
  );
}

function movesOf({ key }: ToldTrial): ToldMove[] {
  return key.expected.map(({ accepted: [{ marker, shift }] }) => {
    const by: Place = [shift.forward, shift.left, shift.up];
    return { marker, by };
  });
}

function writtenIn({ written }: ToldTrial, { figure }: ShownTrial): ToldMove[] {
  return written.map(({ marker, way, mm }) => {
    const { forward, left, up } = shiftAlong(way, figure.markers[marker]!.side, mm);
    return { marker, by: [forward, left, up] };
  });
}
