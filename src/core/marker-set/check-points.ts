import { quoted } from '../schemas/show-value.ts';
import { type Draft, entriesOf, refuse, refuseSame } from './draft.ts';
import { eachName, mustKnow, writtenAbove } from './known-names.ts';

const pointFields = ['of', 'from', 'to', 'rightAsis', 'leftAsis', 'pelvisBack', 'longAxis', 'forward'];

/**
 * Points, views and segments, in the order in which they are computed: each from what stands above it.
 * @throws MarkerSetError at a name that is not known yet, or a line without length
 */
export function checkPoints(draft: Draft): void {
  const points = new Set(draft.set.markers.map(({ label }) => label));
  for (const { pointer, item } of entriesOf(draft, 'virtualPoints')) {
    eachName(item, pointer, pointFields, (name, place) =>
      mustKnow(draft, place, name, 'marker or virtual point', points, writtenAbove),
    );
    if (item.construct === 'along-line') refuseSame(draft, pointer, item.from, item.to, ['from', 'to']);
    if (item.construct === 'hip-centre')
      refuseSame(draft, pointer, item.rightAsis, item.leftAsis, ['rightAsis', 'leftAsis']);
    if (points.has(item.name)) {
      refuse(
        draft,
        `${pointer}/name`,
        `found ${quoted(item.name)}, which another point is called already; choose another name`,
      );
    }
    points.add(item.name);
  }
  checkViews(draft, points);
  const views = new Set(draft.set.views.map(({ name }) => name));
  for (const { pointer, item } of entriesOf(draft, 'segments')) {
    eachName({ longAxis: item.longAxis, forward: item.forward }, pointer, pointFields, (name, place) =>
      mustKnow(draft, place, name, 'marker or virtual point', points),
    );
    for (const field of ['longAxis', 'forward'] as const) {
      const line = item[field];
      if (line !== null) refuseSame(draft, `${pointer}/${field}`, line.from, line.to, ['from', 'to']);
    }
    if (item.outward !== null) mustKnow(draft, `${pointer}/outward`, item.outward, 'view', views);
  }
}

function checkViews(draft: Draft, points: ReadonlySet<string>): void {
  const above = new Map<string, string>();
  for (const { pointer, item } of entriesOf(draft, 'views')) {
    eachName(item, pointer, ['from', 'to'], (name, place) =>
      mustKnow(draft, place, name, 'marker or virtual point', points),
    );
    refuseSame(draft, pointer, item.from, item.to, ['from', 'to']);
    if (item.base !== null) {
      mustKnow(draft, `${pointer}/base`, item.base, 'view', new Set(above.keys()), writtenAbove);
      if (above.get(item.base) !== item.side) {
        refuse(
          draft,
          `${pointer}/base`,
          `found ${quoted(item.base)}, which is not on the ${item.side}; write it with "@." and without its side`,
        );
      }
    }
    above.set(item.name, item.side);
  }
}
