import { useEffect, useRef } from 'preact/hooks';
import type { ToldTrial } from '../../core/practice/shown-trial.ts';

interface ToldPanelProps {
  readonly told: ToldTrial;
  readonly goOn: () => void;
}

/** What is right, what was written against it, and what nobody can tell from the figure. */
export function ToldPanel({ told, goOn }: ToldPanelProps) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus({ preventScroll: false }), [told]);
  const { truth, score, look, limits } = told.feedback;
  return (
    <section class="told" aria-labelledby="told-heading">
      <h2 id="told-heading" tabIndex={-1} ref={heading}>
        {told.key.basis === 'planted' ? 'What is right' : 'What the program would do'}
      </h2>
      {truth.map((says) => (
        <p class="truth">{says}</p>
      ))}
      <h3>Your verdict</h3>
      <ul>
        {score.map((says) => (
          <li>{says}</li>
        ))}
      </ul>
      {look.length === 0 ? null : (
        <>
          <h3>Where to look</h3>
          {look.map((says) => (
            <p>{says}</p>
          ))}
        </>
      )}
      {limits.map((says) => (
        <p class="small">{says}</p>
      ))}
      <p>{`${told.right} of ${told.answered} wholly right so far.`}</p>
      <button type="button" class="large primary" onClick={goOn}>
        {told.next === null ? 'To the summary' : 'Next trial'}
      </button>
    </section>
  );
}
