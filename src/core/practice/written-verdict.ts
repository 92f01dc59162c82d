import { mostMm } from './history.ts';
import type { NamedMove, WrittenVerdict } from './score-verdict.ts';
import type { MarkerChoice } from './shown-trial.ts';
import { type Way, ways } from './skin-ways.ts';

/** Words for a way that people write, besides its own name and its first letters. */
const otherWords: Readonly<Record<string, Way>> = { back: 'backward', ahead: 'forward', out: 'outward', in: 'inward' };

const nothing = /^(nothing|none|clean|-|0)$/i;
export const verdictExample = 'L_HEEL up 12';

/**
 * Reads a verdict as it is typed: `nothing`, or `L_HEEL up 12`; several with commas between them.
 * @param choices markers that are on
 * @returns a sentence where it cannot be read
 */
export function parseVerdict(text: string, choices: readonly MarkerChoice[]): WrittenVerdict | string {
  const typed = text.trim();
  if (typed === '') return `Write "nothing", or which marker, which way and how many mm: ${verdictExample}.`;
  if (nothing.test(typed)) return [];
  const moves: NamedMove[] = [];
  for (const part of typed.split(',')) {
    const move = parseMove(part.trim(), choices);
    if (typeof move === 'string') return move;
    if (moves.some(({ marker }) => marker === move.marker)) return `${move.marker} is named twice; name it once.`;
    moves.push(move);
  }
  return moves;
}

function parseMove(text: string, choices: readonly MarkerChoice[]): NamedMove | string {
  const [name = '', word = '', distance = '', more] = text.split(/\s+/);
  const choice = choices.find(({ marker }) => marker.toLowerCase() === name.toLowerCase());
  if (choice === undefined) return `"${name}" is none of the markers of this figure; write its label as in the list.`;
  const { marker, ways: open } = choice;
  const asked = otherWords[word.toLowerCase()] ?? word.toLowerCase();
  const way =
    ways.find((one) => one === asked) ?? (asked === '' ? undefined : ways.find((one) => one.startsWith(asked)));
  if (way === undefined || !open.some((one) => one.way === way)) {
    return `${marker} is put right along the skin: ${open.map((one) => one.way).join(', ')}; write one of these.`;
  }
  const mm = /^\d{1,3}(\.\d)?(mm)?$/i.test(distance) ? Number.parseFloat(distance) : Number.NaN;
  if (!(mm > 0 && mm <= mostMm)) return `How many mm? Write a number up to ${mostMm} after the way: ${verdictExample}.`;
  if (more !== undefined && !/^mm$/i.test(more))
    return `"${more}" is too much; with several markers, put commas between.`;
  return { marker, way, mm };
}
