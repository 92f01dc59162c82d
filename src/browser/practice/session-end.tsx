import type { ToldTrial } from '../../core/practice/shown-trial.ts';

interface SessionEndProps {
  readonly told: ToldTrial;
  readonly again: () => void;
  readonly seeRecord: () => void;
  /** On the disk of the command. */
  readonly isSaved: boolean;
  readonly hasCode: boolean;
}

/** What the session showed, and what may come next. */
export function SessionEnd({ told, again, seeRecord, isSaved, hasCode }: SessionEndProps) {
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
      {hasCode ? (
        <button type="button" class="large" onClick={seeRecord}>
          See the record
        </button>
      ) : null}
    </section>
  );
}
