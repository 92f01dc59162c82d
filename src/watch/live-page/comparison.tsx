import type { Capture } from '../../core/captures/capture-session.ts';
import type { NamedRule } from '../../core/captures/compare-captures.ts';
import type { StepOutcome } from '../../core/captures/step-result.ts';
import { escapeControls } from '../../core/report/escape-controls.ts';
import { ruleName } from '../../core/report/rule-name.ts';
import { DistanceBar } from './distance-bar.tsx';

/** How an outcome looks, beside its words: each has a shape of its own. */
type Tone = 'good' | 'doubt' | 'finding' | 'unjudged';

const signs: Readonly<Record<Tone, string>> = {
  good: 'M5 12.5l5 5 9-11',
  doubt: 'M5 12h14',
  finding: 'M12 5v9M12 18.5v.5',
  unjudged: 'M9 9a3 3 0 1 1 4.5 2.6c-1 .6-1.5 1.2-1.5 2.4M12 18.5v.5',
};

/** What became of the steps that the capture before had asked for, and what else changed. */
export function Comparison({ capture }: { readonly capture: Capture }) {
  const { against, person } = capture;
  if (against === null) {
    return person === 1 ? null : (
      <p class="other-body">The body is another one than before: taken as another patient, corrections count anew.</p>
    );
  }
  const { kind, steps, newlyFailing, seenNow, missingNow } = against.comparison;
  if (kind === 'cannot-compare') {
    return <p class="other-body">{`Too few markers are in both to compare it with capture ${against.number}.`}</p>;
  }
  const said = [
    ...newly(newlyFailing),
    ...missingNow.map((marker) => `Missing now: ${marker}.`),
    ...seenNow.map((marker) => `Seen now: ${marker}.`),
  ];
  if (steps.length === 0 && said.length === 0) return null;
  return (
    <section class="compared" aria-labelledby="compared-heading">
      <h2 id="compared-heading">{headingOf(capture)}</h2>
      {steps.length === 0 ? null : (
        <ol>
          {steps.map((step) => (
            <Outcome step={step} />
          ))}
        </ol>
      )}
      {said.map((text) => (
        <p class="changed">{escapeControls(text)}</p>
      ))}
    </section>
  );
}

function headingOf({ number, against }: Capture): string {
  return against!.number === number ? 'Processed again: what changed' : `Since capture ${against!.number}`;
}

function newly(rules: readonly NamedRule[]): string[] {
  return rules.length === 0 ? [] : [`Failing only now: ${rules.map(ruleName).join('; ')}.`];
}

function Outcome({ step }: { readonly step: StepOutcome }) {
  const tone = toneOf(step);
  return (
    <li class={`outcome ${tone}`}>
      <svg class="sign" viewBox="0 0 24 24" aria-hidden="true">
        <circle cx="12" cy="12" r="12" />
        <path d={signs[tone]} />
      </svg>
      <div>
        <p class="subject">{escapeControls(step.subject)}</p>
        <p class="happened">{escapeControls(step.happened)}</p>
        <DistanceBar step={step} />
        {step.check === '' ? null : <p class="check">{step.check}</p>}
      </div>
    </li>
  );
}

/** The check counts most, then the way; a palpated marker that stayed may well be right. */
function toneOf({ result, checkNow, action }: StepOutcome): Tone {
  if (checkNow === 'pass' || checkNow === 'accepted') return 'good';
  if (checkNow === null && (result === 'done' || result === 'settled')) return 'good';
  if (result === 'cannot-tell' || (result === 'not-moved' && action === 'palpate-again')) return 'unjudged';
  return result === 'not-moved' || result === 'other-way' || result === 'open' ? 'finding' : 'doubt';
}
