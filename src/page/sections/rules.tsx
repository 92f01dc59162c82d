import { counted } from '../../core/report/counted.ts';
import type { Report, ReportedRule } from '../../core/report/report.ts';
import { ruleName } from '../../core/report/rule-name.ts';
import { sentence } from '../../core/report/sentence.ts';
import { RuleScale } from '../figure/rule-scale.tsx';
import { below, Heading, type Level } from '../heading.tsx';
import { allowedWords, statusWords, valueWords } from './figures-in-words.ts';

interface SectionProps {
  readonly report: Report;
  readonly id: string;
  readonly level: Level;
}

/** Everything that did not pass, in full, in the order in which the pictures number it. */
export function NotPassed({ report, id, level }: SectionProps) {
  const rules = report.rules.filter(
    ({ status }) => status === 'fail' || status === 'borderline' || status === 'accepted',
  );
  if (rules.length === 0) return null;
  return (
    <section aria-labelledby={`${id}-heading`}>
      <Heading level={level} id={`${id}-heading`}>
        {`Not passed (${rules.length})`}
      </Heading>
      <ol class="findings">
        {rules.map((rule) => (
          <Finding rule={rule} level={below(level)} />
        ))}
      </ol>
    </section>
  );
}

function Finding({ rule, level }: { readonly rule: ReportedRule; readonly level: Level }) {
  const uncertainty =
    rule.uncertainty === null ? '' : `; uncertainty ${valueWords(rule.uncertainty, rule.unit)} (1 SD)`;
  return (
    <li class={`finding ${rule.status}`}>
      <Heading level={level}>
        <span class="status">{statusWords[rule.status]}</span> {ruleName(rule)}
      </Heading>
      <p class="says">{sentence(rule.says)}</p>
      <RuleScale rule={rule} />
      <p class="small">
        {`${valueWords(rule.value, rule.unit)}; allowed ${allowedWords(rule, rule.unit)}${uncertainty}.`}{' '}
        <code>{rule.id}</code>
      </p>
      <dl>
        {rule.reason === '' ? null : (
          <Line term={rule.status === 'accepted' ? 'Accepted' : 'Note'} text={rule.reason} />
        )}
        {rule.why === '' ? null : <Line term="Why" text={rule.why} />}
        {rule.seen === '' ? null : <Line term="Look" text={rule.seen} />}
        {rule.source === '' ? null : <Line term="Limit from" text={rule.source} />}
      </dl>
    </li>
  );
}

function Line({ term, text }: { readonly term: string; readonly text: string }) {
  return (
    <div>
      <dt>{term}</dt>
      <dd>{sentence(text)}</dd>
    </div>
  );
}

const bases = [
  { basis: 'construction', title: 'as the protocol places the markers' },
  { basis: 'anatomy', title: 'as bodies usually are' },
] as const;

export function Passed({ report, id, level }: SectionProps) {
  return (
    <>
      {bases.map(({ basis, title }) => {
        const rules = report.rules.filter((rule) => rule.status === 'pass' && rule.basis === basis);
        if (rules.length === 0) return null;
        return (
          <section aria-labelledby={`${id}-${basis}`}>
            <details>
              <summary>
                <Heading level={level} id={`${id}-${basis}`}>
                  {`Passed, ${title} (${rules.length})`}
                </Heading>
              </summary>
              <table>
                <thead>
                  <tr>
                    <th scope="col">Check</th>
                    <th scope="col">Value</th>
                    <th scope="col">Allowed</th>
                    <td />
                  </tr>
                </thead>
                <tbody>
                  {rules.map((rule) => (
                    <tr>
                      <th scope="row">{ruleName(rule)}</th>
                      <td class="figure">{valueWords(rule.value, rule.unit)}</td>
                      <td class="figure">{allowedWords(rule, rule.unit)}</td>
                      <td>
                        <RuleScale rule={rule} />
                      </td>
                    </tr>
                  ))}
                </tbody>
              </table>
            </details>
          </section>
        );
      })}
    </>
  );
}

/** What could not be judged, gathered by its reason, and what no check sees: counted and told, never left out. */
export function NotChecked({ report, id, level }: SectionProps) {
  const rules = report.rules.filter(({ status }) => status === 'not-assessed');
  const { unseen } = report.coverage;
  if (rules.length === 0 && unseen.length === 0) return null;
  const byReason = new Map<string, ReportedRule[]>();
  for (const rule of rules) byReason.set(rule.reason, [...(byReason.get(rule.reason) ?? []), rule]);
  return (
    <section aria-labelledby={`${id}-heading`}>
      <Heading level={level} id={`${id}-heading`}>
        {rules.length === 0 ? 'Not seen by any check' : `Could not be checked (${rules.length})`}
      </Heading>
      <ul>
        {[...byReason].map(([reason, of]) => (
          <li>
            {`${reason === '' ? 'No reason given.' : sentence(reason)} ${of.length === report.rules.length ? `Every check (${counted(of.length, 'check')}).` : `${counted(of.length, 'check')}: ${of.map((rule) => (rule.essential ? `${ruleName(rule)} (essential)` : ruleName(rule))).join('; ')}.`}`}
          </li>
        ))}
      </ul>
      {unseen.length === 0 ? null : (
        <>
          <p>Only palpation tells:</p>
          <ul>
            {unseen.map(({ says }) => (
              <li>{sentence(says)}</li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}
