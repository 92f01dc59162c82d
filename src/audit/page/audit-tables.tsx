import { fixed } from '../../core/report/rounding.ts';
import type { CaseMix, GroupOffset, MarkerTally, RuleTally } from '../analysis/audit-report.ts';
import { percent, range, signed, visitsOf, waysOf, whatCounts } from '../report/audit-words.ts';
import { Section } from './section.tsx';

interface TableProps {
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
  /** How many columns, from the left, hold words. */
  readonly words: number;
}

function Table({ head, rows, words }: TableProps) {
  const kind = (column: number) => (column < words ? {} : { class: 'number' });
  return (
    <table>
      <thead>
        <tr>
          {head.map((cell, column) => (
            <th scope="col" {...kind(column)}>
              {cell}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr>
            {row.map((cell, column) =>
              column === 0 ? <th scope="row">{cell}</th> : <td {...kind(column)}>{cell}</td>,
            )}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

export function RuleTable({ rules }: { readonly rules: readonly RuleTally[] }) {
  const rows = rules.map(({ title, side, counts, failShare, failsAbove, failsBelow, mean, sd, unit, says }) => [
    side === 'midline' || side === 'both' ? title : `${title}, ${side}`,
    says,
    String(counts.fail),
    percent(failShare),
    `${failsAbove} / ${failsBelow}`,
    String(counts.borderline),
    String(counts.accepted),
    String(counts['not-assessed']),
    `${signed(mean)} ${unit}`,
    fixed(1, sd),
  ]);
  return (
    <Section id="rules" title="Rules, those most often off first">
      <Table
        words={2}
        head={[
          'Rule',
          'When it fails, mostly',
          'Fail',
          'Share',
          'Above / below',
          'Borderline',
          'Accepted',
          'Not judged',
          'Mean',
          'SD',
        ]}
        rows={rows}
      />
    </Section>
  );
}

export function MarkerTable({ markers }: { readonly markers: readonly MarkerTally[] }) {
  if (markers.length === 0) return null;
  return (
    <Section id="markers" title="Markers most often named, and where they would have to go">
      <Table
        words={2}
        head={['Marker', 'Way', 'Named', 'Mean way, mm', 'Mean turn, degrees']}
        rows={markers.map((marker) => [
          `${marker.marker}, ${marker.called}`,
          waysOf(marker),
          String(marker.named),
          fixed(1, marker.meanDistanceMm),
          signed(marker.meanTurnDeg),
        ])}
      />
    </Section>
  );
}

export function OffsetTables({ offsets }: { readonly offsets: readonly GroupOffset[] }) {
  return (
    <>
      {(['assessor', 'site', 'month'] as const).map((by) => {
        const shown = offsets.filter((offset) => offset.by === by);
        return shown.length === 0 ? null : (
          <Section id={`offsets-${by}`} title={`Mean offset of each construction rule by ${by}`}>
            <p class="small">{whatCounts}</p>
            <Table
              words={3}
              head={[by, 'Rule', 'Side', 'Visits', 'Mean', '95 % of the mean', 'SD', '95 % of the SD', 'Limit']}
              rows={shown.map((one) => [
                one.group,
                one.title,
                one.side,
                visitsOf(one),
                `${signed(one.mean)} ${one.unit}`,
                range(one.isFew ? null : one.meanInterval),
                fixed(1, one.sd),
                one.isFew || one.sdInterval === null
                  ? '-'
                  : `${fixed(1, one.sdInterval[0])} to ${fixed(1, one.sdInterval[1])}`,
                fixed(1, one.limit),
              ])}
            />
          </Section>
        );
      })}
    </>
  );
}

export function CaseMixTable({ caseMix }: { readonly caseMix: readonly CaseMix[] }) {
  if (caseMix.length === 0) return null;
  const ages = ['under 13', '13 to 17', '18 to 64', '65 and over', 'unknown'] as const;
  return (
    <Section id="case-mix" title="Whom each saw">
      <p class="small">Groups with unlike patients do not compare. Ages and what follows are counted in recordings.</p>
      <Table
        words={1}
        head={[
          '',
          'Visits',
          ...ages.map((age) => (age === 'unknown' ? 'age unknown' : age)),
          'With facts',
          'Optional markers on',
          'Never still',
        ]}
        rows={caseMix.map((mix) => [
          `${mix.by} ${mix.group}`,
          String(mix.visits),
          ...ages.map((age) => String(mix.ages[age])),
          String(mix.withFacts),
          String(mix.withOptionalMarkers),
          String(mix.notStill),
        ])}
      />
    </Section>
  );
}
