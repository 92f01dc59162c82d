import type { MarkerSet } from '../marker-set/marker-set.ts';
import { nearestName } from '../schemas/nearest-name.ts';
import { anyOf, quoted } from '../schemas/show-value.ts';
import type { Session } from './session.ts';

/**
 * What a session waives or confirms that the marker set does not have, and that would otherwise do nothing without a
 * word: one sentence for each, for the notes of a report. Recorded variants are left to whoever reports on them.
 */
export function sessionMismatches(session: Session, set: MarkerSet): string[] {
  const rules = set.rules.map(({ id }) => id);
  const markers = set.markers.map(({ label }) => label);
  return [
    ...session.accepted.flatMap(({ rule }) =>
      rules.includes(rule)
        ? []
        : [
            `The session accepts the rule ${quoted(rule)}, which is not in this marker set, so nothing was waived${hint(rule, rules, (side) => `${rule}.${side}`)}.`,
          ],
    ),
    ...session.confirmedRules.flatMap(({ rule }) =>
      rules.includes(rule)
        ? []
        : [
            `The session confirms the rule ${quoted(rule)}, which is not in this marker set, so it counts for no marker${hint(rule, rules, (side) => `${rule}.${side}`)}.`,
          ],
    ),
    ...session.confirmed.flatMap(({ marker }) =>
      markers.includes(marker)
        ? []
        : [
            `The session confirms the marker ${quoted(marker)}, which is not in this marker set, so it counts for none${hint(marker, markers, (side) => `${side === 'right' ? 'R' : 'L'}_${marker}`, aliasOwner(set, marker))}.`,
          ],
    ),
  ];
}

function aliasOwner(set: MarkerSet, alias: string): string | null {
  return set.markers.find(({ aliases }) => aliases.includes(alias))?.label ?? null;
}

function hint(
  name: string,
  known: readonly string[],
  onSide: (side: 'right' | 'left') => string,
  owner: string | null = null,
): string {
  if (owner !== null) return `; write its label, ${quoted(owner)}`;
  const sides = [onSide('right'), onSide('left')];
  if (sides.every((full) => known.includes(full))) return `; write ${anyOf(sides)}`;
  const stem = name.replace(/\.(right|left)$/, '');
  const nearest = known.includes(stem) ? stem : nearestName(name, known);
  return nearest === null ? '' : `; perhaps ${quoted(nearest)} is meant`;
}
