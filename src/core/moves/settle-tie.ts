import type { MarkerDefinition } from '../marker-set/marker-set.ts';
import { explainsAsWell, type Suspect } from './choose-marker.ts';
import type { Tie } from './move.ts';
import { whose } from './move-words.ts';

/**
 * The markers that a chosen one is not told apart from (log-odds under ln 3), and the one look that settles most: a
 * landmark, for the bone answers yes or no, and of those the one whose answer is least foreseen. Null where the chosen
 * marker stands out, or nothing weighed it.
 *
 * What an answer is worth is the entropy of "this is the one" among the tied; it is largest nearest to one in two.
 */
export function tieOf(chosen: Suspect, rivals: readonly Suspect[]): Tie | null {
  if (chosen.probability === null) return null;
  const tied = [chosen, ...rivals.filter((rival) => explainsAsWell(rival, chosen))];
  if (tied.length < 2) return null;
  const palpable = tied.filter(({ marker }) => marker.placedBy === 'palpation');
  const sum = tied.reduce((total, { probability }) => total + probability!, 0);
  // In whole percent: of two markers both answers are foreseen alike, and the one of this step is asked first.
  const unsure = ({ probability }: Suspect): number => Math.round(100 * Math.abs(probability! / sum - 0.5));
  const [settling] = (palpable.length > 0 ? palpable : tied).toSorted((a, b) => unsure(a) - unsure(b));
  return {
    markers: tied.map(({ marker }) => marker.label),
    settledBy: settling!.marker.label,
    says:
      settling === chosen
        ? 'Too close to call; this look settles most.'
        : `Too close to call: ${lookAt(settling!.marker)} settles most; do that first.`,
  };
}

function lookAt(marker: MarkerDefinition): string {
  return marker.placedBy === 'palpation'
    ? `palpating again for ${whose(marker)}`
    : `a look along the line of ${whose(marker)}`;
}
