import { valueAt } from '../schemas/json-pointer.ts';
import { allOf, quoted } from '../schemas/show-value.ts';
import { checkKind } from './check-kind.ts';
import { checkLimits } from './check-limits.ts';
import { type Draft, type DraftEntry, entriesOf, refuse } from './draft.ts';
import { eachName, mustKnow } from './known-names.ts';
import { markersBehind, needsMarkers } from './markers-behind.ts';

const pointFields = 'from to point distal proximal reachFrom axisFrom axisTo right left first second per vertex'.split(
  ' ',
);

/** @throws MarkerSetError at the first rule or stance item that names what is not there or could not work */
export function checkRules(draft: Draft): void {
  const { set } = draft;
  const markers = new Set(set.markers.map(({ label }) => label));
  const stance = new Set([...set.stance, ...(set.model?.posture ?? [])].map(({ id }) => id));
  for (const entry of [...entriesOf(draft, 'stance'), ...entriesOf(draft, 'rules')]) {
    checkGeometry(draft, entry);
    checkKind(draft, entry);
    checkLimits(draft, entry.pointer, entry.item);
  }
  for (const entry of entriesOf(draft, 'rules')) {
    const { pointer, item: rule } = entry;
    eachName(rule, pointer, ['mayMove'], (name, place) => mustKnow(draft, place, name, 'marker', markers));
    eachName(rule, pointer, ['explainedBy'], (name, place) => mustKnow(draft, place, name, 'stance item', stance));
    checkMayMove(draft, entry);
    if (rule.essential) checkEssential(draft, entry);
    rule.shiftedBy.forEach(({ fact }, index) => {
      const place = `${pointer}/shiftedBy/${index}/fact`;
      if (!('allowed' in rule))
        refuse(
          draft,
          place,
          `found ${quoted(fact)} for a rule that is judged by "allowedTurn", which does not shift; take it out`,
        );
      refuseSidedFact(draft, place, fact, rule.side);
    });
  }
}

/** Facts that are recorded for each side say nothing about a rule that has none. */
export function refuseSidedFact(draft: Draft, pointer: string, fact: string, side: string): void {
  if (fact === 'legLengthDifferenceMm' || side === 'right' || side === 'left') return;
  refuse(
    draft,
    pointer,
    `found ${quoted(fact)}, which is recorded for each side, but the rule has no side; take it out, or use it in a rule for each side`,
  );
}

function checkGeometry(draft: Draft, { pointer, item }: DraftEntry<'rules' | 'stance'>): void {
  const { set } = draft;
  const points = new Set([...set.markers.map(({ label }) => label), ...set.virtualPoints.map(({ name }) => name)]);
  eachName(item, pointer, pointFields, (name, place, field) => {
    if (field === 'per' && name === 'stature' && place === `${pointer}/per`) return;
    mustKnow(draft, place, name, 'marker or virtual point', points);
  });
  eachName(item, pointer, ['view'], (name, place) =>
    mustKnow(draft, place, name, 'view', new Set(set.views.map((view) => view.name))),
  );
  eachName(item, pointer, ['segment'], (name, place) =>
    mustKnow(draft, place, name, 'segment', new Set(set.segments.map((segment) => segment.name))),
  );
}

function checkMayMove(draft: Draft, { pointer, item: rule }: DraftEntry<'rules'>): void {
  const { markers, bodyAxes } = draft.set;
  const behind = markersBehind(draft.set, rule).add(bodyAxes.right).add(bodyAxes.left);
  if (!rule.mayMove.some((label) => behind.has(label))) {
    refuse(
      draft,
      `${pointer}/mayMove`,
      `found ${allOf(valueAt(draft.written, `${pointer}/mayMove`) as string[])}, but the rule measures none of it, so that moving it changes nothing; name a marker that it measures`,
    );
  }
  if (rule.mayMove.every((label) => markers.find((marker) => marker.label === label)!.purpose === 'tracks')) {
    refuse(
      draft,
      `${pointer}/mayMove`,
      'found only markers that track, which are never asked to move; name another, or change what they are for',
    );
  }
}

/** An essential rule that leans on a marker that may be left out would fail every trial without it. */
function checkEssential(draft: Draft, { pointer, item: rule }: DraftEntry<'rules'>): void {
  const optional = new Set(
    draft.set.markers.filter(({ presence }) => presence === 'optional').map(({ label }) => label),
  );
  const missing = needsMarkers(draft.set, rule).find((label) => optional.has(label));
  if (missing !== undefined) {
    refuse(
      draft,
      `${pointer}/essential`,
      `found an essential rule on ${quoted(missing)}, which is optional; make that marker "required", or the rule not essential`,
    );
  }
}
