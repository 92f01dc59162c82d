import type { MarkerSet, RuleDefinition, VirtualPointDefinition } from '../marker-set/marker-set.ts';
import { ruleKinds } from '../rule-kinds/all-rule-kinds.ts';

const known = new WeakMap<MarkerSet, ReadonlyMap<string, VirtualPointDefinition>>();

/** The virtual points of a set by name: made once for a set, which is asked for every rule of every trial. */
function virtualPointsOf(set: MarkerSet): ReadonlyMap<string, VirtualPointDefinition> {
  const made = known.get(set) ?? new Map(set.virtualPoints.map((point) => [point.name, point]));
  known.set(set, made);
  return made;
}

/** The markers a rule rests on, through virtual points and directions of view, in the set's order. */
export function markersOf(rule: RuleDefinition, set: MarkerSet, has: (point: string) => boolean): string[] {
  const virtual = virtualPointsOf(set);
  const found = new Set<string>();
  const visit = (name: string): void => {
    const point = virtual.get(name);
    if (point === undefined) found.add(name);
    else if (point.construct === 'along-line') [point.from, point.to].forEach(visit);
    else if (point.construct === 'hip-centre') [point.rightAsis, point.leftAsis, point.pelvisBack].forEach(visit);
    else if (point.construct === 'midpoint') point.of.forEach(visit);
    else visit(point.of.find(has) ?? point.of[0]!);
  };
  const needs = ruleKinds[rule.kind].needs(rule);
  needs.points.forEach(visit);
  for (const name of needs.views) {
    const view = set.views.find((candidate) => candidate.name === name)!;
    if (has(view.from) && has(view.to)) [view.from, view.to].forEach(visit);
  }
  return set.markers.map((marker) => marker.label).filter((label) => found.has(label));
}
