import { ruleKinds } from '../rule-kinds/all-rule-kinds.ts';
import { idOn, labelOn } from './expand-marker-set.ts';
import { foldLabel } from './fold-label.ts';
import type { MarkerSet } from './marker-set.ts';
import { MarkerSetError } from './marker-set-error.ts';
import type { WrittenEntry, WrittenMarkerSet } from './written-marker-set.ts';

/**
 * What a schema cannot see: names that stand for nothing, names given twice, limits that contradict themselves.
 * @throws MarkerSetError at the first fault, with the pointer into the file as written.
 */
export function checkReferences(written: WrittenMarkerSet, set: MarkerSet): void {
  const markers = new Set(set.markers.map((marker) => marker.label));
  const points = new Set(markers);
  const segments = new Set(set.segments.map((segment) => segment.name));
  const views = new Set(set.views.map((view) => view.name));
  const rules = new Set(written.rules.map((rule) => rule.id));
  const stance = new Set(set.stance.map((item) => item.id));

  refuseTwice('markers', 'label', written.markers);
  refuseTwice('rules', 'id', written.rules);
  refuseTwice('views', 'name', written.views);
  refuseTwice('segments', 'name', written.segments);
  refuseTwice('stance', 'id', written.stance);
  refuseAmbiguousLabels(set);

  written.virtualPoints.forEach((entry, index) => {
    eachName(
      entry,
      entry,
      (name, path) =>
        known(points, name, `/virtualPoints/${index}${path}`, 'a marker, or a virtual point written above it'),
      pointFields,
    );
    for (const side of sides(entry)) {
      const name = labelOn(side, entry.name);
      if (points.has(name))
        fail(`/virtualPoints/${index}/name`, `"${name}" is already the name of another point; choose another name.`);
      points.add(name);
    }
  });
  written.views.forEach((entry, index) => {
    eachName(
      entry,
      entry,
      (name, path) => known(points, name, `/views/${index}${path}`, 'a marker or virtual point'),
      pointFields,
    );
  });
  written.segments.forEach((entry, index) => {
    eachName(
      entry,
      entry,
      (name, path) => {
        if (path === '/outward') known(views, name, `/segments/${index}${path}`, 'a view');
        else known(points, name, `/segments/${index}${path}`, 'a marker or virtual point');
      },
      [...pointFields, 'outward'],
    );
  });
  written.markers.forEach((entry, index) => {
    for (const side of sides(entry)) {
      if (!segments.has(entry.segment) && !segments.has(idOn(side, entry.segment))) {
        fail(
          `/markers/${index}/segment`,
          `"${entry.segment}" is not a segment of this set; expected one of ${list(written.segments.map((s) => s.name))}.`,
        );
      }
    }
  });
  for (const collection of ['rules', 'stance'] as const) {
    written[collection].forEach((entry, index) => {
      const pointer = `/${collection}/${index}`;
      eachName(
        entry,
        entry,
        (name, path) => {
          if (path === '/view') known(views, name, pointer + path, 'a view');
          else if (path === '/segment') known(segments, name, pointer + path, 'a segment');
          else if (path.startsWith('/mayMove')) known(markers, name, pointer + path, 'a marker');
          else if (path.startsWith('/explainedBy')) known(stance, name, pointer + path, 'a stance item');
          else known(points, name, pointer + path, 'a marker or virtual point');
        },
        ruleFields,
      );
      checkAllowed(entry as object, pointer);
      if (ruleKinds[entry.kind] === undefined)
        fail(`${pointer}/kind`, `"${entry.kind}" is not a kind of rule that is known.`);
    });
  }
  const { bodyAxes } = written;
  for (const [path, name] of [
    ['/right', bodyAxes.right],
    ['/left', bodyAxes.left],
  ] as const)
    known(markers, name, `/bodyAxes${path}`, 'a marker');
  for (const group of ['low', 'high'] as const) {
    bodyAxes[group].forEach((name, index) => known(markers, name, `/bodyAxes/${group}/${index}`, 'a marker'));
  }
  bodyAxes.forward.forEach((line, index) => {
    for (const end of ['from', 'to'] as const) {
      line[end].forEach((name, at) => known(markers, name, `/bodyAxes/forward/${index}/${end}/${at}`, 'a marker'));
    }
  });
  written.orders.forEach((entry, index) => {
    eachName(entry, entry, (name, path) => known(markers, name, `/orders/${index}${path}`, 'a marker'), [
      'first',
      'second',
    ]);
  });
  written.oftenSwapped.forEach((pair, index) => {
    pair.forEach((name, at) => {
      for (const label of name.startsWith('@') ? ['R_', 'L_'].map((p) => p + name.slice(1)) : [name]) {
        known(markers, label, `/oftenSwapped/${index}/${at}`, 'a marker');
      }
    });
  });
  written.placementOrder.forEach((name, index) => {
    for (const label of name.startsWith('@') ? ['R_', 'L_'].map((p) => p + name.slice(1)) : [name]) {
      known(markers, label, `/placementOrder/${index}`, 'a marker');
    }
  });
  written.variants.forEach((variant, index) => {
    variant.suspends.forEach((item, at) =>
      known(rules, item.rule, `/variants/${index}/suspends/${at}/rule`, 'the id of a rule'),
    );
    for (const rule of Object.keys(variant.allowed))
      known(rules, rule, `/variants/${index}/allowed/${rule}`, 'the id of a rule');
    const stems = new Set(written.markers.map((marker) => marker.label));
    for (const stem of Object.keys(variant.landmarks))
      known(stems, stem, `/variants/${index}/landmarks/${stem}`, 'a marker');
  });
}

const pointFields = ['of', 'from', 'to', 'rightAsis', 'leftAsis', 'pelvisBack', 'longAxis', 'forward'];
const ruleFields = [
  'from',
  'to',
  'point',
  'distal',
  'proximal',
  'view',
  'reachFrom',
  'axisFrom',
  'axisTo',
  'right',
  'left',
  'first',
  'second',
  'segment',
  'per',
  'vertex',
  'mayMove',
  'explainedBy',
];

/** Calls `visit` with every name below the given fields, on each side of the entry, and the path to it. */
function eachName(
  entry: WrittenEntry,
  value: object,
  visit: (name: string, path: string) => void,
  fields: readonly string[],
): void {
  for (const [key, item] of Object.entries(value)) {
    if (fields.includes(key)) names(item, `/${key}`);
  }
  function names(item: unknown, path: string): void {
    if (typeof item === 'string') {
      if (path === '/per') return;
      for (const side of sides(entry)) {
        if (!item.startsWith('@')) visit(item, path);
        else if (side === 'midline')
          fail(path, `"${item}" names a side, but the entry is not sided; write "sided": true or the full label.`);
        else visit(item.startsWith('@.') ? idOn(side, item.slice(2)) : labelOn(side, item.slice(1)), path);
      }
    } else if (Array.isArray(item)) item.forEach((each, index) => names(each, `${path}/${index}`));
    else if (item !== null && typeof item === 'object') {
      for (const [key, each] of Object.entries(item)) names(each, `${path}/${key}`);
    }
  }
}

function sides(entry: WrittenEntry): readonly ('right' | 'left' | 'midline')[] {
  return entry.sided === true ? ['right', 'left'] : ['midline'];
}

function known(names: ReadonlySet<string>, name: string, pointer: string, expected: string): void {
  if (!names.has(name)) {
    fail(pointer, `"${name}" is not in this set; expected ${expected}. Check its spelling, or add it.`);
  }
}

function refuseTwice(collection: string, field: string, entries: readonly object[]): void {
  const seen = new Set<unknown>();
  entries.forEach((entry, index) => {
    const name = (entry as Record<string, unknown>)[field];
    if (seen.has(name))
      fail(`/${collection}/${index}/${field}`, `"${name}" stands twice in ${collection}; each may stand once.`);
    seen.add(name);
  });
}

/** A label or alias that could mean two markers would put one marker in another's place. */
function refuseAmbiguousLabels(set: MarkerSet): void {
  const owners = new Map<string, string>();
  for (const marker of set.markers) {
    for (const label of [marker.label, ...marker.aliases]) {
      const folded = foldLabel(label);
      const owner = owners.get(folded);
      if (owner !== undefined && owner !== marker.label) {
        fail(
          '/markers',
          `"${label}" could mean ${owner} or ${marker.label}; letter case, spaces and punctuation do not tell labels apart. Take one out.`,
        );
      }
      owners.set(folded, marker.label);
    }
  }
}

function checkAllowed(entry: object, pointer: string): void {
  const { allowed, borderline } = entry as {
    allowed?: { range?: [number | null, number | null]; limit?: number };
    borderline: number;
  };
  const turn = (entry as { allowedTurn?: { limitDeg: number } }).allowedTurn;
  if (allowed?.range !== undefined) {
    const [low, high] = allowed.range;
    if (low === null && high === null)
      fail(`${pointer}/allowed/range`, 'both ends are open, so the rule could never fail; give at least one.');
    if (low !== null && high !== null && low >= high)
      fail(`${pointer}/allowed/range`, `${low} is not below ${high}; write the lower end first.`);
    if (low !== null && high !== null && borderline > (high - low) / 2)
      fail(
        `${pointer}/borderline`,
        `${borderline} is more than half the range, so nothing could pass; make it smaller.`,
      );
  }
  const limit = allowed?.limit ?? turn?.limitDeg;
  if (limit !== undefined && borderline >= limit)
    fail(
      `${pointer}/borderline`,
      `${borderline} is not below the limit ${limit}, so nothing could pass; make it smaller.`,
    );
}

function list(names: readonly string[]): string {
  return names.map((name) => `"${name}"`).join(', ');
}

function fail(pointer: string, trouble: string): never {
  throw new MarkerSetError(pointer, `marker set, at ${pointer}: ${trouble}`);
}
