import { scaleLinear } from 'd3-scale';
import type { ReportedRule } from '../../core/report/report.ts';
import { svgNumber } from './views.ts';

const size = { width: 260, height: 34 } as const;
const middle = 15;

/** What a scale needs of a rule, or of a measure of the stance. */
export type Scaled = Pick<ReportedRule, 'value' | 'status'> &
  Partial<Pick<ReportedRule, 'target' | 'range' | 'limit' | 'borderline' | 'uncertainty'>>;

/** Ends of what is allowed; infinite where one is open, null where the report gives none. */
export function allowedEnds({ target, range, limit }: Scaled): { low: number; high: number } | null {
  if (range !== undefined) return { low: range[0] ?? -Infinity, high: range[1] ?? Infinity };
  if (target === undefined || limit === undefined || limit === null) return null;
  return { low: target - limit, high: target + limit };
}

/**
 * A value against what is allowed: a band, its borderline edges hatched, the value with its uncertainty. The figures
 * stand beside it in words, so that it is not read aloud.
 */
export function RuleScale({ rule }: { readonly rule: Scaled }) {
  const ends = allowedEnds(rule);
  const { value } = rule;
  if (ends === null || value === null) return null;
  const given = [ends.low, ends.high, value].filter(Number.isFinite);
  const span = Math.max(...given) - Math.min(...given) || Math.abs(value) || 1;
  const scale = scaleLinear()
    .domain([Math.min(...given) - 0.18 * span, Math.max(...given) + 0.18 * span])
    .range([0, size.width]);
  const [low, high] = [
    Number.isFinite(ends.low) ? scale(ends.low) : 0,
    Number.isFinite(ends.high) ? scale(ends.high) : size.width,
  ];
  const edge = Math.min((high - low) / 2, Math.abs(scale(rule.borderline ?? 0) - scale(0)));
  const at = scale(value);
  const doubt = Math.abs(scale(rule.uncertainty ?? 0) - scale(0));
  const band = { y: middle - 6, height: 12 };
  return (
    <svg class={`scale ${rule.status}`} viewBox={`0 0 ${size.width} ${size.height}`} aria-hidden="true">
      <line class="axis" x1="0" y1={middle} x2={size.width} y2={middle} />
      <rect class="allowed" x={svgNumber(low)} width={svgNumber(high - low)} {...band} />
      {edge > 0.5 && Number.isFinite(ends.low) ? (
        <rect class="near" x={svgNumber(low)} width={svgNumber(edge)} {...band} />
      ) : null}
      {edge > 0.5 && Number.isFinite(ends.high) ? (
        <rect class="near" x={svgNumber(high - edge)} width={svgNumber(edge)} {...band} />
      ) : null}
      {[ends.low, ends.high].filter(Number.isFinite).map((end) => (
        <line class="end" x1={svgNumber(scale(end))} y1={middle - 10} x2={svgNumber(scale(end))} y2={middle + 10} />
      ))}
      {doubt > 6 ? (
        <line
          class="uncertainty"
          x1={svgNumber(Math.max(0, at - doubt))}
          y1={middle}
          x2={svgNumber(Math.min(size.width, at + doubt))}
          y2={middle}
        />
      ) : null}
      <ValueMark at={at} status={rule.status} />
    </svg>
  );
}

/** A dot within, a half-filled one near the limit, a diamond beyond it. */
function ValueMark({ at, status }: { readonly at: number; readonly status: Scaled['status'] }) {
  const x = svgNumber(at);
  if (status === 'fail' || status === 'accepted') {
    return <path class="value" d={`M${x} ${middle - 9}l9 9-9 9-9-9Z`} />;
  }
  return (
    <g>
      <circle class="value" cx={x} cy={middle} r="7" />
      {status === 'borderline' ? <path class="half" d={`M${x} ${middle - 7}a7 7 0 0 1 0 14Z`} /> : null}
    </g>
  );
}
