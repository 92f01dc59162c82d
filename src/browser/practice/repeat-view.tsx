import { useEffect, useRef } from 'preact/hooks';
import type { ToldRepeat } from '../../core/practice/repeat-rows.ts';
import { RepeatArticle } from '../../page/practice/repeat-article.tsx';

interface RepeatViewProps {
  readonly told: ToldRepeat;
  readonly isKept: boolean;
  readonly back: () => void;
}

/** Repeated placings of one subject, and whether they went into the history. */
export function RepeatView({ told, isKept, back }: RepeatViewProps) {
  const shown = useRef<HTMLDivElement>(null);
  useEffect(() => shown.current?.querySelector('h1')?.focus(), []);
  return (
    <div class="practice" ref={shown}>
      <div class="rows on-screen">
        <button type="button" onClick={() => print()}>
          Print
        </button>
        <button type="button" onClick={back}>
          Back
        </button>
        <span role="status">
          {isKept
            ? 'Added to your history; save it before you close the page.'
            : 'Not added to a history: it needs your code, and no doubt about the placings.'}
        </span>
      </div>
      <RepeatArticle told={told} />
    </div>
  );
}
