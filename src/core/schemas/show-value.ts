/** What a terminal or a page obeys instead of showing: control codes, invisible format characters, half surrogates. */
const obeyed = /[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/gu;

const longest = 60;

/** A value from a file, short and safe to print: texts in quotes, lists and objects by what they are. */
export function show(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (Array.isArray(value)) return value.length === 0 ? 'an empty list' : 'a list';
  if (value !== null && typeof value === 'object') return 'an object in braces';
  return typeof value === 'string' ? quoted(value) : shorten(String(value));
}

/** A name in quotes, shortened, with what would be obeyed written out (`\u202e`). */
export function quoted(name: string): string {
  return `"${bare(name)}"`;
}

/** The same without the quotes, for a name that the sentence sets apart by itself. */
export function bare(name: string): string {
  return shorten(printable(name));
}

/** Alternatives in quotes: `"a", "b" or "c"`; a long list is cut and says so. */
export function anyOf(names: readonly unknown[]): string {
  return joined(names, 'or', 'or one of');
}

/** All of several in quotes: `"a", "b" and "c"`; a long list is cut and says so. */
export function allOf(names: readonly unknown[]): string {
  return joined(names, 'and', 'and');
}

function joined(names: readonly unknown[], last: string, rest: string): string {
  const kept: string[] = [];
  for (const name of names.map(show)) {
    if (kept.length > 0 && [...kept, name].join(', ').length > 150) break;
    kept.push(name);
  }
  const more = names.length - kept.length;
  if (more > 0) return `${kept.join(', ')} ${rest} ${more} more`;
  return kept.length < 2 ? kept.join('') : `${kept.slice(0, -1).join(', ')} ${last} ${kept.at(-1)}`;
}

function printable(text: string): string {
  // Enough to fill the longest name shown: what follows is cut anyway.
  return text
    .slice(0, longest * 2)
    .replace(/["\\]/g, '\\$&')
    .replace(obeyed, (odd) => `\\u${odd.codePointAt(0)!.toString(16).padStart(4, '0')}`);
}

function shorten(text: string): string {
  const characters = [...text];
  return characters.length > longest ? `${characters.slice(0, longest - 3).join('')}...` : text;
}
