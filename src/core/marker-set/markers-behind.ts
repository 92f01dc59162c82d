import { ruleKinds } from '../rule-kinds/all-rule-kinds.ts';
import type { MarkerSet, RuleDefinition } from './marker-set.ts';

/** Every marker that a rule's value can depend on, through virtual points, views and segment axes. */
export function markersBehind(set: MarkerSet, rule: RuleDefinition): Set<string> {
  const found = new Set<string>();
  const { points, views } = ruleKinds[rule.kind].needs(rule);
  points.forEach((point) => addPoint(point));
  views.forEach((view) => addView(view));
  if (rule.kind === 'order-along-axis' && rule.segment !== null) {
    const segment = set.segments.find(({ name }) => name === rule.segment)!;
    for (const line of [segment.longAxis, segment.forward]) {
      if (line !== null) [line.from, line.to].forEach(addPoint);
    }
    if (segment.outward !== null) addView(segment.outward);
  }
  return found;

  function addPoint(name: string): void {
    if (found.has(name)) return;
    found.add(name);
    sourcesOf(set, name).forEach(addPoint);
  }
  function addView(name: string): void {
    const view = set.views.find((candidate) => candidate.name === name)!;
    [view.from, view.to].forEach(addPoint);
    if (view.base !== null) addView(view.base);
  }
}

/** The markers that a point is computed from; a marker itself. */
export function markersBehindPoint(set: MarkerSet, name: string): Set<string> {
  const isMarker = set.virtualPoints.every((point) => point.name !== name);
  if (isMarker) return new Set([name]);
  return new Set(sourcesOf(set, name).flatMap((source) => [...markersBehindPoint(set, source)]));
}

/** Markers without any one of which a rule cannot be judged; of points that stand in for each other, none. */
export function needsMarkers(set: MarkerSet, rule: RuleDefinition): string[] {
  const walk = (name: string): string[] => {
    const point = set.virtualPoints.find((candidate) => candidate.name === name);
    if (point === undefined) return [name];
    return point.construct === 'first-of' && point.of.length > 1 ? [] : sourcesOf(set, name).flatMap(walk);
  };
  return [...new Set(ruleKinds[rule.kind].needs(rule).points.flatMap(walk))];
}

function sourcesOf(set: MarkerSet, name: string): readonly string[] {
  const point = set.virtualPoints.find((candidate) => candidate.name === name);
  if (point === undefined) return [];
  switch (point.construct) {
    case 'along-line':
      return [point.from, point.to];
    case 'hip-centre':
      return [point.rightAsis, point.leftAsis, point.pelvisBack];
    default:
      return point.of;
  }
}
