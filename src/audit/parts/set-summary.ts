import type { MarkerSet } from '../../core/marker-set/marker-set.ts';
import type { LoadedMarkerSet } from '../../core/marker-set/parse-marker-set.ts';
import type { Unit } from '../../core/rule-kinds/rule-kind.ts';
import { ruleStem } from '../../core/rules/expected-rules.ts';
import type { RuleSide } from './trial-row.ts';

/** Words of a marker set that figures are told with; a part holds those of its sets. */
export interface SetSummary {
  readonly sha256: string;
  readonly name: string;
  readonly version: string;
  readonly rules: readonly RuleSummary[];
  readonly markers: readonly MarkerSummary[];
}

export interface RuleSummary {
  readonly id: string;
  /** Id without its side. */
  readonly stem: string;
  readonly title: string;
  readonly side: RuleSide;
  readonly basis: 'construction' | 'anatomy';
  readonly unit: Unit;
  /** Sentences for a value above and below what is expected, with `{size}`, `{off}`, `{value}`. */
  readonly saysAbove: string;
  readonly saysBelow: string;
  readonly why: string;
}

export interface MarkerSummary {
  readonly label: string;
  readonly called: string;
  readonly landmark: string;
  readonly side: 'right' | 'left' | 'midline';
  readonly placedBy: 'palpation' | 'eye';
}

export function summarizeSet(set: LoadedMarkerSet): SetSummary {
  const { sha256, name, version } = set;
  return { sha256, name, version, rules: rulesOf(set), markers: set.markers.map(pickMarker) };
}

function rulesOf(set: MarkerSet): RuleSummary[] {
  return set.rules.map((rule) => ({
    id: rule.id,
    stem: ruleStem(rule),
    title: rule.title,
    side: rule.side,
    basis: rule.basis,
    unit: rule.unit,
    saysAbove: rule.saysAbove,
    saysBelow: rule.saysBelow,
    why: rule.why,
  }));
}

function pickMarker({ label, called, landmark, side, placedBy }: MarkerSummary): MarkerSummary {
  return { label, called, landmark, side, placedBy };
}
