import { InputError } from '../../node/input-error.ts';
import { readCode } from './read-code.ts';
import { unknownVisit, type Visit, type VisitField } from './visit.ts';

type Token =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'field'; readonly field: VisitField }
  /** `*` within a folder's name, `**` across folders, `**` with a slash: any number of whole folders. */
  | { readonly kind: 'any'; readonly reach: 'name' | 'path' | 'folders' };

/** A pattern such as `{site}/{assessor}/{subject}_{date}*.c3d`, read once and matched against many paths. */
export type PathPattern = readonly Token[];

const fields: Readonly<Record<string, VisitField>> = {
  assessor: 'assessor',
  site: 'site',
  date: 'on',
  subject: 'subject',
};

/** Longer than any system lets a path be. */
const longestPath = 5000;

/** @throws {InputError} where a field is not known, stands twice, or a brace is left open. */
export function parsePathPattern(pattern: string): PathPattern {
  const refuse = (found: string): never => {
    throw new InputError(
      `--path-pattern: ${found}, expected {assessor}, {site}, {date}, {subject}, * or ** among plain text`,
      'correct the pattern',
    );
  };
  if (pattern === '' || pattern.length > 1000) refuse(`${pattern.length} characters`);
  const tokens: Token[] = [];
  const named = new Set<VisitField>();
  for (const piece of pattern.replaceAll('\\', '/').match(/\*\*\/?|\*|\{[^{}]*\}|[^*{}]+|[{}]/g) ?? []) {
    if (piece.startsWith('*')) {
      tokens.push({ kind: 'any', reach: piece === '*' ? 'name' : piece === '**' ? 'path' : 'folders' });
    } else if (/^\{.+\}$/.test(piece)) {
      const field = Object.hasOwn(fields, piece.slice(1, -1)) ? fields[piece.slice(1, -1)]! : refuse(`found ${piece}`);
      if (named.has(field)) refuse(`found ${piece} twice`);
      named.add(field);
      tokens.push({ kind: 'field', field });
    } else if (piece === '{' || piece === '}' || piece === '{}') refuse(`found a "${piece}" on its own`);
    else tokens.push({ kind: 'text', text: piece });
  }
  if (named.size === 0) refuse('found no field');
  return tokens;
}

/**
 * Who, when and where as a path tells it. The whole path below its folder must fit; a field takes as much as leaves the
 * rest a fit, a date only eight digits with or without hyphens. No token is tried twice at one place, so that no path
 * makes it slow. Unknown everywhere where the path does not fit.
 */
export function matchPathPattern(tokens: PathPattern, path: string): Visit {
  const text = path.replaceAll('\\', '/');
  const failed = new Set<number>();
  const ends = new Array<number>(tokens.length);
  const fits = (index: number, at: number): boolean => {
    const token = tokens[index];
    if (token === undefined) return at === text.length;
    const place = index * (text.length + 1) + at;
    if (failed.has(place)) return false;
    // As far as it goes first: a star by one letter more, whatever it is, a field by its longest end.
    if (token.kind === 'any' && at < text.length && (token.reach !== 'name' || text[at] !== '/') && fits(index, at + 1))
      return true;
    for (const end of endsOf(token, text, at)) {
      ends[index] = end;
      if (fits(index + 1, end)) return true;
    }
    failed.add(place);
    return false;
  };
  if (text.length > longestPath || !fits(0, 0)) return unknownVisit;
  const visit: Record<VisitField, string | null> = { ...unknownVisit };
  tokens.forEach((token, index) => {
    const start = index === 0 ? 0 : ends[index - 1]!;
    if (token.kind === 'field') visit[token.field] = readCode(token.field, text.slice(start, ends[index]));
  });
  return visit;
}

/** Where a token may end that has come as far as `at`, the longest first; a star is lengthened by whoever asks. */
function* endsOf(token: Token, text: string, at: number): Iterable<number> {
  if (token.kind === 'text') {
    if (text.startsWith(token.text, at)) yield at + token.text.length;
  } else if (token.kind === 'any') {
    if (token.reach !== 'folders' || at === 0 || text[at - 1] === '/') yield at;
  } else if (token.field === 'on') {
    for (const end of [at + 10, at + 8]) if (readCode('on', text.slice(at, end)) !== null) yield end;
  } else {
    const slash = text.indexOf('/', at);
    for (let end = slash < 0 ? text.length : slash; end > at; end--) yield end;
  }
}
