import { valueAt } from '../schemas/json-pointer.ts';
import { quoted, show } from '../schemas/show-value.ts';
import { checkLimits } from './check-limits.ts';
import { type Draft, refuse, refuseSame } from './draft.ts';
import { eachName, mustKnow } from './known-names.ts';

const jointMarkers = ['lateral', 'medial', 'wand'] as const;

/** @throws MarkerSetError where the lower-body model names what it cannot be computed from */
export function checkModel(draft: Draft): void {
  if (draft.set.model === null) return;
  const markers = new Map(draft.set.markers.map((marker) => [marker.label, marker]));
  const points = new Set([...markers.keys(), ...draft.set.virtualPoints.map(({ name }) => name)]);
  for (const side of ['right', 'left'] as const) {
    const leg = draft.set.model[side];
    mustKnow(draft, '/model/hipCentre', leg.hipCentre, 'marker or virtual point', points);
    const hip = draft.set.virtualPoints.find(({ name }) => name === leg.hipCentre);
    if (hip?.construct !== 'hip-centre' || hip.side !== side) {
      refuse(
        draft,
        '/model/hipCentre',
        `found ${show(valueAt(draft.written, '/model/hipCentre'))}, expected a virtual point of construct "hip-centre" on either side; write a sided one and name it with "@"`,
      );
    }
    for (const joint of ['knee', 'ankle'] as const) {
      const named = leg[joint];
      for (const field of jointMarkers) {
        const label = named[field];
        if (label === null) continue;
        const place = `/model/${joint}/${field}`;
        mustKnow(draft, place, label, 'marker', new Set(markers.keys()));
        if (markers.get(label)!.side !== side) {
          refuse(
            draft,
            place,
            `found ${quoted(label)}, which would serve both legs; write it with "@", for either side`,
          );
        }
      }
      for (const [one, other] of [
        ['lateral', 'medial'],
        ['lateral', 'wand'],
        ['medial', 'wand'],
      ] as const) {
        refuseSame(draft, `/model/${joint}`, named[one] ?? one, named[other] ?? other, [one, other]);
      }
      if (named[named.axisFrom] === null) {
        refuse(
          draft,
          `/model/${joint}/axisFrom`,
          `found ${quoted(named.axisFrom)}, but the ${joint} names no ${quoted(named.axisFrom)} marker; add it, or let the other give the axis`,
        );
      }
    }
    eachName(leg.foot, '/model/foot', ['from', 'to'], (name, place) => {
      mustKnow(draft, place, name, 'marker or virtual point', points);
      if (!isOfMarkers(name, draft)) {
        refuse(
          draft,
          place,
          `found ${show(valueAt(draft.written, place))}, which markers alone do not give; name a marker, or a point between markers`,
        );
      }
    });
    refuseSame(draft, '/model/foot', leg.foot.from, leg.foot.to, ['from', 'to']);
  }
  checkPosture(draft);
}

function checkPosture(draft: Draft): void {
  const ids = new Set(draft.written.stance.map(({ id }) => id));
  (draft.written.model!.posture ?? []).forEach((entry, index) => {
    const pointer = `/model/posture/${index}`;
    if (ids.has(entry.id)) {
      refuse(
        draft,
        `${pointer}/id`,
        `found ${quoted(entry.id)}, which another stance item is called already; choose another name, or take one out`,
      );
    }
    ids.add(entry.id);
    const isOfPelvis = entry.angle.startsWith('pelvis.');
    if (isOfPelvis === (entry.sided === true)) {
      refuse(
        draft,
        `${pointer}/angle`,
        isOfPelvis
          ? `found ${quoted(entry.angle)} for either side, but the pelvis is one; take "sided" out`
          : `found ${quoted(entry.angle)} without a side; make the item "sided": true`,
      );
    }
    checkLimits(draft, pointer, entry);
  });
}

/** Whether a point follows from markers, with no regression on the way. */
function isOfMarkers(name: string, draft: Draft): boolean {
  const point = draft.set.virtualPoints.find((candidate) => candidate.name === name);
  if (point === undefined) return true;
  if (point.construct === 'hip-centre') return false;
  const parts = point.construct === 'along-line' ? [point.from, point.to] : point.of;
  return parts.every((part) => isOfMarkers(part, draft));
}
