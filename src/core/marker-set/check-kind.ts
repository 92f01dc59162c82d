import { quoted } from '../schemas/show-value.ts';
import { type Draft, type DraftEntry, refuse, refuseSame } from './draft.ts';
import { sideOfKind } from './expand-marker-set.ts';

/** @throws MarkerSetError where side, unit or points of a rule or stance item do not go with its kind */
export function checkKind(draft: Draft, { pointer, written, item }: DraftEntry<'rules' | 'stance'>): void {
  const say = (field: string, trouble: string): never => refuse(draft, `${pointer}/${field}`, trouble);
  const same = (place: string, one: string, other: string, fields: [string, string]): void =>
    refuseSame(draft, `${pointer}${place}`, one, other, fields);
  const sided = written.sided === true;

  if (sided && written.side !== undefined)
    say('side', `found ${quoted(written.side)} on a rule for each side; take out "side" or "sided"`);
  if (sided && (sideOfKind(item.kind) === 'both' || item.kind === 'point-on-midline'))
    say(
      'sided',
      `found true, but ${quoted(item.kind)} looks at both sides at once; take it out and write full names such as "R_GT"`,
    );
  if (sideOfKind(item.kind) === 'both' && written.side === 'midline')
    say('side', `found "midline", but ${quoted(item.kind)} compares both sides; write "both"`);
  if (sided && !/"@/.test(JSON.stringify({ ...written, mayMove: [], explainedBy: [] })))
    say('sided', 'found true, but the rule names no point of its side; write "@GT" for the one on its side');

  switch (item.kind) {
    case 'line-parallel-to-floor':
      same('', item.from, item.to, ['from', 'to']);
      break;
    case 'point-in-line':
      if (!sided)
        say('kind', 'found "point-in-line" without a side, but it looks along a view of one; write "sided": true');
      if (draft.set.views.find(({ name }) => name === item.view)!.side !== item.side)
        say(
          'view',
          `found ${quoted(item.view)}, which is not on the ${item.side}; write it with "@." and without its side`,
        );
      same('/reachFrom', item.reachFrom.distal, item.reachFrom.proximal, ['distal', 'proximal']);
      same('', item.distal, item.proximal, ['distal', 'proximal']);
      break;
    case 'line-square-to-axis':
      same('', item.axisFrom, item.axisTo, ['axisFrom', 'axisTo']);
      same('', item.from, item.to, ['from', 'to']);
      break;
    case 'pair-mirrored':
      if ((item.component === 'turn') !== (item.unit === 'deg'))
        say(
          'unit',
          `found ${quoted(item.unit)} for the component ${quoted(item.component)}; write ${item.component === 'turn' ? '"deg"' : '"mm"'}`,
        );
      same('/left', item.left.from, item.left.to, ['from', 'to']);
      same('/right', item.right.from, item.right.to, ['from', 'to']);
      break;
    case 'lengths-alike':
      same('/left', item.left.from, item.left.to, ['from', 'to']);
      same('/right', item.right.from, item.right.to, ['from', 'to']);
      break;
    case 'pair-level':
    case 'point-on-midline':
      same('', item.right, item.left, ['right', 'left']);
      break;
    case 'order-along-axis':
      same('', item.first, item.second, ['first', 'second']);
      break;
    case 'distance-in-range':
      if ((item.unit === 'ratio') !== (item.per !== null))
        say(
          'unit',
          item.per === null
            ? 'found "ratio" without "per"; say what the distance is divided by, or write "mm"'
            : `found ${quoted(item.unit)} with "per"; write "ratio", or take "per" out`,
        );
      if (typeof item.per === 'object' && item.per !== null) same('/per', item.per.from, item.per.to, ['from', 'to']);
      same('', item.from, item.to, ['from', 'to']);
      break;
    case 'angle-in-range':
      if (item.measure === 'bend' && item.vertex === null)
        say('measure', 'found "bend" without "vertex"; name the joint between the two lines as "vertex"');
      if (item.measure !== 'bend' && item.vertex !== null)
        say(
          'vertex',
          `found ${quoted(item.vertex)}, but ${quoted(item.measure)} is the angle of one line; take it out`,
        );
      if (item.vertex !== null) {
        same('', item.from, item.vertex, ['from', 'vertex']);
        same('', item.to, item.vertex, ['to', 'vertex']);
      }
      same('', item.from, item.to, ['from', 'to']);
      break;
  }
}
