import { fixed } from '../../core/report/rounding.ts';
import { Section } from '../../page/section.tsx';
import { type Cell, WideTable } from '../../page/wide-table.tsx';
import type { AuditReport, CaseMix, GroupOffset, MarkerTally, RuleTally } from '../analysis/audit-report.ts';
import { markerName, percent, range, signed, turnOf, visitsOf, waysOf, whatCounts } from '../report/audit-words.ts';
import { widestOffsets } from '../report/widest-offsets.ts';

export function RuleTable({ rules }: { readonly rules: readonly RuleTally[] }) {
  if (rules.length === 0) return null;
  const off = rules.filter(({ counts }) => counts.fail > 0);
  const rest = rules.filter(({ counts }) => counts.fail === 0);
  const head = ['Fail', 'Share', 'Above / below', 'Borderline', 'Accepted', 'Not judged', 'Mean', 'SD'];
  const figures = ({ counts, failShare, failsAbove, failsBelow, mean, sd, unit }: RuleTally) => [
    String(counts.fail),
    percent(failShare),
    `${failsAbove} / ${failsBelow}`,
    String(counts.borderline),
    String(counts.accepted),
    String(counts['not-assessed']),
    `${signed(mean)} ${unit}`,
    fixed(1, sd),
  ];
  const nameOf = ({ title, side }: RuleTally) => (side === 'midline' || side === 'both' ? title : `${title}, ${side}`);
  return (
    <Section id="rules" title="Rules, those most often off first">
      {off.length === 0 ? (
        <p>No rule failed.</p>
      ) : (
        <WideTable
          label="Rules that failed"
          words={1}
          head={['Rule', ...head]}
          rows={off.map((rule) => [
            { first: nameOf(rule), second: rule.says === '' ? '' : `mostly ${rule.says}` },
            ...figures(rule),
          ])}
        />
      )}
      {rest.length === 0 ? null : (
        <details>
          <summary>{`Rules that never failed (${rest.length})`}</summary>
          <WideTable
            label="Rules that never failed"
            words={1}
            head={['Rule', ...head]}
            rows={rest.map((rule) => [nameOf(rule), ...figures(rule)])}
          />
        </details>
      )}
    </Section>
  );
}

export function MarkerTable({ markers }: { readonly markers: readonly MarkerTally[] }) {
  if (markers.length === 0) return null;
  return (
    <Section id="markers" title="Markers most often named in a step, and where they would have to go">
      <WideTable
        label="Markers"
        words={2}
        head={['Marker', 'Way', 'Recordings', 'Mean way, mm']}
        rows={markers.map((marker) => [
          markerName(marker),
          { first: waysOf(marker), second: turnOf(marker) },
          String(marker.named),
          fixed(1, marker.meanDistanceMm),
        ])}
      />
    </Section>
  );
}

/** A row for each group and side, a column for each rule. */
export function OffsetTables({ offsets, signs }: Pick<AuditReport, 'offsets' | 'signs'>) {
  const rules = [...new Map(offsets.map((one) => [one.rule, `${one.title}, ${one.unit}`]))];
  return (
    <>
      {(['assessor', 'site', 'month'] as const).map((by) => {
        const ofGroups = offsets.filter((offset) => offset.by === by);
        const shown = by === 'month' ? widestOffsets(ofGroups) : ofGroups;
        if (shown.length === 0) return null;
        const id = `offsets-${by}`;
        return (
          <Section id={id} title={`Mean offset of each construction rule by ${by}`}>
            <p class="small">
              {`Mean and SD over the visits; below them the 95 % interval of the mean, that of the SD in brackets, and the number of visits. ${whatCounts}${by === 'month' ? ' Right and left together.' : ''}`}
            </p>
            <WideTable
              label={`Offsets by ${by}`}
              words={by === 'month' ? 1 : 2}
              head={headOf(by, rules)}
              rows={rowsOf(by, shown, rules)}
            />
            <ul class="small">
              {signs.map(({ says }) => (
                <li>{says}</li>
              ))}
            </ul>
          </Section>
        );
      })}
    </>
  );
}

function headOf(by: GroupOffset['by'], rules: readonly (readonly [string, string])[]): string[] {
  return [
    `${by[0]!.toUpperCase()}${by.slice(1)}`,
    ...(by === 'month' ? [] : ['Side']),
    ...rules.map(([, title]) => title),
  ];
}

function rowsOf(
  by: GroupOffset['by'],
  offsets: readonly GroupOffset[],
  rules: readonly (readonly [string, string])[],
): Cell[][] {
  const keys = [...new Set(offsets.map(({ group, side }) => JSON.stringify(by === 'month' ? [group] : [group, side])))];
  return keys.map((key) => {
    const [group, side] = JSON.parse(key) as [string, string?];
    const of = (rule: string) =>
      offsets.find((one) => one.group === group && one.rule === rule && (side === undefined || one.side === side));
    return [group, ...(side === undefined ? [] : [side]), ...rules.map(([rule]) => offsetCell(of(rule)))];
  });
}

function offsetCell(offset: GroupOffset | undefined): Cell {
  if (offset === undefined) return '-';
  const { mean, sd, meanInterval, sdInterval, isFew } = offset;
  const intervals =
    isFew || meanInterval === null || sdInterval === null
      ? ''
      : `${range(meanInterval)} (SD ${fixed(1, sdInterval[0])} to ${fixed(1, sdInterval[1])}), `;
  return { first: `${signed(mean)}, SD ${fixed(1, sd)}`, second: `${intervals}n ${visitsOf(offset)}` };
}

export function CaseMixTable({ caseMix }: { readonly caseMix: readonly CaseMix[] }) {
  if (caseMix.length === 0) return null;
  const ages = ['under 13', '13 to 17', '18 to 64', '65 and over', 'unknown'] as const;
  return (
    <Section id="case-mix" title="Whom each saw">
      <p class="small">Groups with unlike patients do not compare. Ages and what follows are counted in recordings.</p>
      <WideTable
        label="Patients"
        words={1}
        head={[
          'Group',
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
