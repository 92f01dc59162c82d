import { useEffect, useRef } from 'preact/hooks';
import type { TraineeRecord } from '../../core/practice/trainee-record.ts';
import { RecordArticle } from '../../page/practice/record-article.tsx';
import { type SignedOff, SignOffForm } from './sign-off-form.tsx';

interface RecordViewProps {
  readonly record: TraineeRecord;
  readonly sign: (signed: SignedOff) => Promise<void>;
  readonly back: () => void;
}

/** The record, to look at and to print, and below it the form that adds a sign-off. */
export function RecordView({ record, sign, back }: RecordViewProps) {
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
      </div>
      <RecordArticle record={record} />
      <SignOffForm record={record} sign={sign} />
    </div>
  );
}
