import type { Report, ReportedStance } from '../../core/report/report.ts';
import { fixed } from '../../core/report/rounding.ts';
import { ruleName } from '../../core/report/rule-name.ts';
import { sentence } from '../../core/report/sentence.ts';
import { RuleScale } from '../figure/rule-scale.tsx';
import { Heading, type Level } from '../heading.tsx';
import { allowedWords, valueWords } from './figures-in-words.ts';

type Measure = ReportedStance['measures'][number];

/** How the patient stands: looked at before any marker is doubted. */
export function Stance({ report, id, level }: { readonly report: Report; readonly id: string; readonly level: Level }) {
  const { stance } = report;
  if (stance === null || (stance.measures.length === 0 && stance.loadShare === null)) return null;
  return (
    <section aria-labelledby={`${id}-heading`}>
      <Heading level={level} id={`${id}-heading`}>
        Stance
      </Heading>
      {stance.measures.length === 0 ? null : (
        <table>
          <thead>
            <tr>
              <th scope="col">Measure</th>
              <th scope="col">Value</th>
              <th scope="col">Usual</th>
              <td />
            </tr>
          </thead>
          <tbody>
            {stance.measures.map((measure) => (
              <Row measure={measure} />
            ))}
          </tbody>
        </table>
      )}
      {stance.loadShare === null ? null : (
        <p>{`${fixed(0, stance.loadShare * 100)} % of the weight is on the right foot.`}</p>
      )}
    </section>
  );
}

function Row({ measure }: { readonly measure: Measure }) {
  const { status, value, unit, range, says } = measure;
  const word = status === 'fail' ? 'outside' : status === 'pass' ? '' : status;
  return (
    <tr>
      <th scope="row">
        {ruleName(measure)}
        {status === 'pass' || says === '' ? null : <span class="said">{sentence(says)}</span>}
      </th>
      <td class="figure">{`${valueWords(value, unit)}${measure.estimated ? ' est.' : ''}`}</td>
      <td class="figure">{allowedWords({ value, status: 'pass', range }, unit)}</td>
      <td>
        <RuleScale rule={{ value, range, status: status === 'expected' ? 'accepted' : status }} />
        {word === '' ? null : <span class={`status ${status}`}>{word}</span>}
      </td>
    </tr>
  );
}
