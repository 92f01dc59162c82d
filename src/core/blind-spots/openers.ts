import type { StandingBody } from '../pose/standing-body.ts';
import { type AnyRuleSpec, ruleKinds } from '../rule-kinds/all-rule-kinds.ts';
import { distance } from '../rule-kinds/positions.ts';
import type { RuleOutcome } from '../rules/assess-rules.ts';
import { isAssessed } from '../rules/assess-rules.ts';
import { markersOf } from '../rules/rule-markers.ts';
import type { Displacement } from './displacement.ts';
import { measuredSpans } from './measured-spans.ts';

/** What would make a displacement visible that no rule sees. */
export interface Opener {
  readonly by: 'marker' | 'measurement' | 'rule-kind';
  /** Label of the marker, measure of the session or `kneeBend`, or kind of rule. */
  readonly name: string;
  /** What it would be compared with: rule id, or the two points. */
  readonly between: readonly string[];
  /** Change for each mm of displacement; null where that was not computed. */
  readonly changePerMm: number | null;
}

/** A comparison that changes less than this for each mm shows nothing. */
const leastChange = { ofReading: 0.5, ofRule: 0.7 };
const probeMm = 5;

/**
 * What would open a blind direction: rules of the set that wait for a marker that is not on, a reading of the hand, or a
 * kind of rule that the set does not use here. The changes are computed on this body; whether people are alike enough
 * for a limit is for the laboratory to say.
 */
export function openersOf(
  body: StandingBody,
  outcomes: readonly RuleOutcome[],
  displacement: Displacement,
  place: (displacement: Displacement, mm: number) => Float64Array,
): Opener[] {
  return [
    ...markersWaitedFor(body, outcomes, displacement),
    ...readings(body, displacement, place),
    ...kneeBend(body, displacement),
    ...otherKinds(body, displacement, place),
  ];
}

/** Markers that turn the knee axis in the model: in a knee bend their fore-aft errors show as cross-talk. */
const kneeAxisStems = ['TW', 'LE', 'ME'];

function kneeBend({ set }: StandingBody, { shifts, toward }: Displacement): Opener[] {
  const stems = shifts.map(({ marker }) => set.markers[marker]!.stem);
  const turns = (toward === 'forward' || toward === 'backward') && stems.some((stem) => kneeAxisStems.includes(stem));
  return turns ? [{ by: 'measurement', name: 'kneeBend', between: [], changePerMm: null }] : [];
}

function markersWaitedFor(
  { set, geometry }: StandingBody,
  outcomes: readonly RuleOutcome[],
  { markers }: Displacement,
) {
  const waiting = new Map<string, string[]>();
  for (const outcome of outcomes) {
    if (isAssessed(outcome)) continue;
    const named = markersOf(outcome.rule, set, geometry.has);
    if (!markers.some((label) => named.includes(label))) continue;
    for (const label of named.filter((name) => !geometry.has(name))) {
      waiting.set(label, [...(waiting.get(label) ?? []), outcome.rule.id]);
    }
  }
  return [...waiting].map(([name, between]): Opener => ({ by: 'marker', name, between, changePerMm: null }));
}

type Place = (displacement: Displacement, mm: number) => Float64Array;

function readings(body: StandingBody, displacement: Displacement, place: Place): Opener[] {
  return measuredSpans(body).flatMap(({ measure, from, to }): Opener[] => {
    const spec = {
      kind: 'distance-in-range',
      unit: 'mm',
      side: 'midline',
      borderline: 0,
      from,
      to,
      per: null,
    } as const;
    const change = changeOf({ ...spec, allowed: { target: 0, limit: 0 } }, body, displacement, place);
    return Math.abs(change) < leastChange.ofReading
      ? []
      : [{ by: 'measurement', name: measure, between: [from, to], changePerMm: change }];
  });
}

/** Of each kind the first rule that the displaced marker could be given and that would change with it. */
function otherKinds(body: StandingBody, displacement: Displacement, place: Place): Opener[] {
  const found = new Map<string, Opener>();
  for (const { spec, between } of candidates(body, displacement)) {
    if (found.has(spec.kind) || hasRule(body, spec)) continue;
    const change = changeOf(spec, body, displacement, place);
    if (Math.abs(change) >= leastChange.ofRule)
      found.set(spec.kind, { by: 'rule-kind', name: spec.kind, between, changePerMm: change });
  }
  return [...found.values()];
}

/** Whether the set compares these points in this way already. */
function hasRule({ set }: StandingBody, spec: AnyRuleSpec): boolean {
  const points = ruleKinds[spec.kind].needs(spec).points.toSorted().join();
  return set.rules.some(
    (rule) => rule.kind === spec.kind && ruleKinds[rule.kind].needs(rule).points.toSorted().join() === points,
  );
}

/** Distances to markers that stay, the nearest first: short distances differ least among people. Then the pair. */
function candidates({ set, geometry, positions }: StandingBody, { markers, shifts }: Displacement) {
  const moved = new Set(shifts.map(({ marker }) => set.markers[marker]!.label));
  const first = set.markers.find(({ label }) => label === markers[0])!;
  const from = geometry.lookup.point(first.label);
  const common = { side: 'midline', borderline: 0, allowed: { target: 0, limit: 0 } } as const;
  const found: { spec: AnyRuleSpec; between: string[] }[] = set.markers
    .filter(({ label, placedBy }) => geometry.has(label) && !moved.has(label) && placedBy === 'palpation')
    .map(({ label }) => ({ label, mm: distance(positions, from, geometry.lookup.point(label)) }))
    .sort((a, b) => a.mm - b.mm)
    .map(({ label }) => ({
      spec: { ...common, kind: 'distance-in-range', unit: 'mm', from: first.label, to: label, per: null },
      between: [first.label, label],
    }));
  const { mirror } = first;
  if (mirror !== null && geometry.has(mirror)) {
    const [right, left] = first.side === 'right' ? [first.label, mirror] : [mirror, first.label];
    const pair = { ...common, side: 'both', kind: 'pair-level', unit: 'mm', right, left } as const;
    found.push({ spec: pair, between: [right, left] });
  }
  return found;
}

function changeOf(spec: AnyRuleSpec, body: StandingBody, displacement: Displacement, place: Place): number {
  const kind = ruleKinds[spec.kind];
  const parameters = kind.resolve(spec, body.geometry.lookup);
  const ahead = kind.residual(place(displacement, probeMm), parameters);
  const behind = kind.residual(place(displacement, -probeMm), parameters);
  return (ahead - behind) / (2 * probeMm);
}
