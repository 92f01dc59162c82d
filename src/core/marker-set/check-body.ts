import { quoted } from '../schemas/show-value.ts';
import { type Draft, entriesOf, refuse, refuseSame } from './draft.ts';
import { eachName, mustKnow } from './known-names.ts';

/** @throws MarkerSetError where the body's axes, its stillness, or what tells exchanged labels cannot hold */
export function checkBody(draft: Draft): void {
  checkAxes(draft);
  const { quietMm, restlessMm } = draft.set.stillness;
  if (quietMm >= restlessMm) {
    refuse(
      draft,
      '/stillness/quietMm',
      `found ${quietMm}, expected less than "restlessMm", which is ${restlessMm}; correct one`,
    );
  }
  checkPairs(draft);
  checkOrders(draft);
}

function checkAxes(draft: Draft): void {
  const { bodyAxes } = draft.set;
  const sideOf = new Map(draft.set.markers.map(({ label, side }) => [label, side]));
  const markers = new Set(sideOf.keys());
  eachName(bodyAxes, '/bodyAxes', ['right', 'left', 'low', 'high'], (name, place) =>
    mustKnow(draft, place, name, 'marker', markers),
  );
  refuseSame(draft, '/bodyAxes', bodyAxes.right, bodyAxes.left, ['right', 'left']);
  for (const side of ['right', 'left'] as const) {
    if (sideOf.get(bodyAxes[side]) === (side === 'right' ? 'left' : 'right')) {
      refuse(
        draft,
        `/bodyAxes/${side}`,
        `found ${quoted(bodyAxes[side])}, which is on the other side; exchange "right" and "left"`,
      );
    }
  }
  bodyAxes.high.forEach((name, index) => {
    if (bodyAxes.low.includes(name))
      refuse(draft, `/bodyAxes/high/${index}`, `found ${quoted(name)} in "low" and in "high"; take it out of one`);
  });
  bodyAxes.forward.forEach((line, index) => {
    eachName(line, `/bodyAxes/forward/${index}`, ['from', 'to'], (name, place, end) => {
      mustKnow(draft, place, name, 'marker', markers);
      const mirror = draft.set.markers.find(({ label }) => label === name)!.mirror;
      if (mirror !== null && !line[end as 'from' | 'to'].includes(mirror)) {
        refuse(
          draft,
          place,
          `found ${quoted(name)} without ${quoted(mirror)}, so that exchanged sides would turn forward; name both, or neither`,
        );
      }
      if (end === 'to' && line.from.includes(name))
        refuse(draft, place, `found ${quoted(name)} in "from" and in "to"; take it out of one`);
    });
  });
}

function checkPairs(draft: Draft): void {
  const { written, set } = draft;
  const markers = new Set(set.markers.map(({ label }) => label));
  written.oftenSwapped.forEach((pair, index) => {
    pair.forEach((name, at) =>
      eachSide(name, (label) => mustKnow(draft, `/oftenSwapped/${index}/${at}`, label, 'marker', markers)),
    );
  });
  set.unseen.forEach(({ markers: named }, index) => {
    named.forEach((name, at) => mustKnow(draft, `/unseen/${index}/markers/${at}`, name, 'marker', markers));
  });
  written.placementOrder.forEach((name, index) => {
    eachSide(name, (label) => mustKnow(draft, `/placementOrder/${index}`, label, 'marker', markers));
  });
}

function eachSide(name: string, visit: (label: string) => void): void {
  for (const label of name.startsWith('@') ? [`R_${name.slice(1)}`, `L_${name.slice(1)}`] : [name]) visit(label);
}

/** Orders must be able to hold together: no marker may have to lie beyond itself. */
function checkOrders(draft: Draft): void {
  const markers = new Set(draft.set.markers.map(({ label }) => label));
  /** Least distance from one marker to another along an axis that follows from the orders so far, mm. */
  const least = new Map<string, number>();
  const key = (axis: string, first: string, second: string): string => JSON.stringify([axis, first, second]);
  for (const { pointer, item } of entriesOf(draft, 'orders')) {
    eachName(item, pointer, ['first', 'second'], (name, place) => mustKnow(draft, place, name, 'marker', markers));
    refuseSame(draft, pointer, item.first, item.second, ['first', 'second']);
    const turned = item.axis === 'outward' && item.side === 'right';
    const axis = item.axis === 'outward' ? 'left' : item.axis;
    const [first, second] = turned ? [item.second, item.first] : [item.first, item.second];
    const back = least.get(key(axis, second, first));
    if (back !== undefined && back + item.byMm >= 0) {
      refuse(
        draft,
        pointer,
        `found ${quoted(item.first)} more than ${item.byMm} mm beyond ${quoted(item.second)} (${item.axis}), which cannot hold together with the orders above it; correct one`,
      );
    }
    for (const from of [...markers]) {
      const toFirst = from === first ? 0 : least.get(key(axis, from, first));
      if (toFirst === undefined) continue;
      for (const to of markers) {
        const onward = to === second ? 0 : least.get(key(axis, second, to));
        if (onward === undefined || from === to) continue;
        const through = toFirst + item.byMm + onward;
        const known = least.get(key(axis, from, to));
        if (known === undefined || through > known) least.set(key(axis, from, to), through);
      }
    }
  }
}
