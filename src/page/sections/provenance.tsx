import { supportsOnly } from '../../core/report/advice.ts';
import { ownName } from '../../core/report/own-name.ts';
import type { Report } from '../../core/report/report.ts';
import { Heading, type Level } from '../heading.tsx';
import { trialName, windowWords } from '../words.ts';

interface ProvenanceProps {
  readonly report: Report;
  readonly showNames: boolean;
  readonly id: string;
  readonly level: Level;
}

/** With what the report was made, for whom, and what it is no substitute for. */
export function Provenance({ report, showNames, id, level }: ProvenanceProps) {
  const { trial, markerSet, norms, tool, subject } = report;
  const rate = trial.rateHz === null ? '' : `, ${trial.rateHz} frames a second`;
  const rows: readonly (readonly [string, string])[] = [
    ['Subject', subject.code ?? 'no code recorded'],
    ['Trial', showNames ? `${ownName(trial.path)}, ${trialName(report)}` : trialName(report)],
    [
      'Frames',
      trial.frames === null ? '' : `${trial.frames} in the file${rate}; used: ${windowWords(report) || 'none'}`,
    ],
    [
      'Lengths',
      trial.units === null ? '' : `${trial.units}${trial.vertical === null ? '' : `; ${trial.vertical} is up`}`,
    ],
    ['Marker set', `${markerSet.name}, version ${markerSet.version}, ${markerSet.sha256.slice(0, 8)}`],
    [
      'Norms',
      norms === null ? 'none: nothing was weighed' : `${norms.name}, version ${norms.version}; ${norms.origin}`,
    ],
    ['Program', `setsquare ${tool.version}`],
  ];
  return (
    <section class="provenance" aria-labelledby={`${id}-heading`}>
      <Heading level={level} id={`${id}-heading`}>
        What this report rests on
      </Heading>
      <dl>
        {rows
          .filter(([, text]) => text !== '')
          .map(([term, text]) => (
            <div>
              <dt>{term}</dt>
              <dd>{text}</dd>
            </div>
          ))}
      </dl>
      <p>{supportsOnly}</p>
    </section>
  );
}
