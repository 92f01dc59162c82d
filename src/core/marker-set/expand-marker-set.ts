import type { MarkerSet, SideOrMiddle } from './marker-set.ts';
import type { LegDefinition, ModelDefinition, WrittenModel } from './model-definition.ts';
import type { WrittenEntry, WrittenMarkerSet } from './written-marker-set.ts';

const bothSides = ['right', 'left'] as const;
const prefix = { right: 'R_', left: 'L_' } as const;

/**
 * What is believed of a marker when the set does not say: markers set by eye follow others and are off more often.
 * From memory.
 */
const usualMisplacement = { palpation: { sdMm: 20, odds: 0.02 }, eye: { sdMm: 20, odds: 0.04 } } as const;

/**
 * Spells out both sides of everything a marker set writes once. `@GT` inside a sided entry becomes `R_GT` and
 * `L_GT`, and ids become `thigh-wand-in-line.right` and `.left`.
 */
export function expandMarkerSet(written: WrittenMarkerSet): MarkerSet {
  const markers = written.markers.flatMap((entry) =>
    sidesOf(entry).map((side) => {
      const { sided: _, aliases, ...rest } = entry;
      return {
        ...{ baseThicknessMm: 0, wandLengthMm: 0, misplacement: usualMisplacement[entry.placedBy] },
        ...rest,
        label: labelOn(side, entry.label),
        stem: entry.label,
        side,
        aliases: aliasesOn(side, aliases),
        mirror: side === 'midline' ? null : labelOn(side === 'right' ? 'left' : 'right', entry.label),
      };
    }),
  );
  const ruleDefaults = { explainedBy: [], suspendedBy: [], shiftedBy: [], essential: false };
  return {
    name: written.name,
    version: written.version,
    title: written.title,
    markers,
    segments: written.segments.flatMap((entry) =>
      sidesOf(entry).map((side) => ({
        longAxis: null,
        forward: null,
        outward: null,
        ...onSide(withoutSided(entry), side),
        name: idOn(side, entry.name),
        side,
      })),
    ),
    virtualPoints: written.virtualPoints.flatMap((entry) =>
      sidesOf(entry).map((side) => ({
        ...onSide(withoutSided(entry), side),
        name: labelOn(side, entry.name),
        ...(entry.construct === 'hip-centre' ? { side } : {}),
      })),
    ),
    views: written.views.flatMap((entry) =>
      sidesOf(entry).map((side) => ({
        base: null,
        recordedAs: null,
        recordedSdDeg: 0,
        ...onSide(withoutSided(entry), side),
        name: idOn(side, entry.name),
        side,
      })),
    ),
    bodyAxes: written.bodyAxes,
    rules: written.rules.flatMap((entry) =>
      sidesOf(entry).map((side) => ({
        ...ruleDefaults,
        ...kindDefaults(entry.kind),
        ...onSide(withoutSided(entry), side),
        id: idOn(side, entry.id),
        side: side === 'midline' ? (entry.side ?? sideOfKind(entry.kind)) : side,
      })),
    ),
    stance: written.stance.flatMap((entry) =>
      sidesOf(entry).map((side) => ({
        expectedWith: [],
        ...kindDefaults(entry.kind),
        ...onSide(withoutSided(entry), side),
        id: idOn(side, entry.id),
        side: side === 'midline' ? (entry.side ?? sideOfKind(entry.kind)) : side,
      })),
    ),
    oftenSwapped: written.oftenSwapped.flatMap((pair) =>
      bothSides.map((side) => onSide(pair, side) as readonly [string, string]),
    ),
    orders: written.orders.flatMap((entry) =>
      sidesOf(entry).map((side) => ({ ...onSide(withoutSided(entry), side), side })),
    ),
    placementOrder: written.placementOrder.flatMap((label) =>
      label.startsWith('@') ? bothSides.map((side) => labelOn(side, label.slice(1))) : [label],
    ),
    variants: written.variants.map((variant) => ({
      ...variant,
      suspends: variant.suspends.map((item) => ({ unless: null, ...item })),
    })),
    stillness: written.stillness,
    measurementsIn: (written.measurementsIn ?? []).map((one) => ({ ...one, side: one.side ?? null })),
    unseen: written.unseen ?? [],
    staticTrialNames: written.staticTrialNames ?? [],
    recordedIn: written.recordedIn ?? null,
    comparisons: (written.comparisons ?? []).flatMap((entry) =>
      sidesOf(entry).map((side) => ({
        ...{ coverShare: 0, tissueMm: 0, alikeMm: 0, height: null },
        ...onSide(withoutSided(entry), side),
        id: idOn(side, entry.id),
        side: side === 'midline' ? null : side,
      })),
    ),
    model: written.model === undefined ? null : modelOf(written.model),
  } as unknown as MarkerSet;
}

function modelOf(written: WrittenModel): ModelDefinition {
  const joint = { medial: null, wand: null };
  const leg: LegDefinition = {
    hipCentre: written.hipCentre,
    knee: { ...joint, ...written.knee },
    ankle: { ...joint, ...written.ankle },
    foot: { flat: false, ...written.foot },
  };
  const posture = (written.posture ?? []).flatMap((entry) =>
    sidesOf(entry).map((side) => ({
      expectedWith: [],
      ...onSide(withoutSided(entry), side),
      id: idOn(side, entry.id),
      side,
      unit: 'deg' as const,
    })),
  );
  return { right: onSide(leg, 'right'), left: onSide(leg, 'left'), posture };
}

function aliasesOn(side: SideOrMiddle, aliases: WrittenMarkerSet['markers'][number]['aliases']): readonly string[] {
  if (aliases === undefined) return [];
  if ('right' in aliases) return side === 'midline' ? [] : aliases[side];
  return aliases;
}

/** Sides that an entry stands for: one or two. */
export function sidesOf(entry: WrittenEntry): readonly SideOrMiddle[] {
  return entry.sided === true ? bothSides : ['midline'];
}

function withoutSided<T extends WrittenEntry>(entry: T): Omit<T, 'sided'> {
  const { sided: _, ...rest } = entry;
  return rest;
}

/** Label of a marker or virtual point on a side: `GT` -> `R_GT`. */
export function labelOn(side: SideOrMiddle, stem: string): string {
  return side === 'midline' ? stem : prefix[side] + stem;
}

/** Id of a rule, view, segment or stance item on a side: `thigh` -> `thigh.right`. */
export function idOn(side: SideOrMiddle, stem: string): string {
  return side === 'midline' ? stem : `${stem}.${side}`;
}

/** Replaces, in every string below `value`, `@NAME` by the point of that side and `{side}` in texts by its name. */
function onSide<T>(value: T, side: SideOrMiddle): T {
  if (side === 'midline') return value;
  if (typeof value === 'string') {
    return (value.startsWith('@') ? sided(value.slice(1), side) : value.replaceAll('{side}', side)) as T;
  }
  if (Array.isArray(value)) return value.map((item) => onSide(item, side)) as T;
  if (value !== null && typeof value === 'object') {
    return Object.fromEntries(Object.entries(value).map(([key, item]) => [key, onSide(item, side)])) as T;
  }
  return value;
}

/** `@GT` is a point; `@.kneeAxis` is a view, segment, rule or stance item, whose id carries its side at the end. */
function sided(name: string, side: 'right' | 'left'): string {
  return name.startsWith('.') ? idOn(side, name.slice(1)) : labelOn(side, name);
}

/** Kinds that compare the two sides belong to both; any other rule that is written once, to the midline. */
export function sideOfKind(kind: string): 'both' | 'midline' {
  return kind === 'pair-level' || kind === 'pair-mirrored' || kind === 'lengths-alike' ? 'both' : 'midline';
}

function kindDefaults(kind: string): object {
  if (kind === 'order-along-axis') return { segment: null };
  if (kind === 'distance-in-range') return { per: null };
  if (kind === 'angle-in-range') return { vertex: null };
  return {};
}
