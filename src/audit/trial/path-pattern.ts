import { InputError } from '../../node/input-error.ts';
import { readCode } from './read-code.ts';
import { unknownVisit, type Visit, type VisitField } from './visit.ts';

type Token =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'field'; readonly field: VisitField | null }
  /** `*`: anything within a folder's name, `**`: anything across folders. */
  | { readonly kind: 'any'; readonly across: boolean };

/** A pattern such as `{site}/{assessor}/{subject}_{date}*.c3d`, read once and matched against many paths. */
export type PathPattern = readonly Token[];

const fields: Readonly<Record<string, VisitField>> = {
  assessor: 'assessor',
  site: 'site',
  date: 'on',
  subject: 'subject',
};

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
    if (piece.startsWith('*')) tokens.push({ kind: 'any', across: piece.startsWith('**') });
    else if (/^\{.+\}$/.test(piece)) {
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
 * rest a fit, a date only eight digits with or without hyphens. Each token is tried once at each place, so that no
 * path makes it slow. Unknown everywhere where the path does not fit.
 */
export function matchPathPattern(tokens: PathPattern, path: string): Visit {
  const text = path.replaceAll('\\', '/');
  const failed = new Set<number>();
  const ends = new Array<number>(tokens.length);
  const fits = (token: number, at: number): boolean => {
    if (token === tokens.length) return at === text.length;
    const place = token * (text.length + 1) + at;
    if (failed.has(place)) return false;
    for (const end of endsOf(tokens[token]!, text, at)) {
      ends[token] = end;
      if (fits(token + 1, end)) return true;
    }
    failed.add(place);
    return false;
  };
  if (!fits(0, 0)) return unknownVisit;
  const visit: Record<VisitField, string | null> = { ...unknownVisit };
  tokens.forEach((token, index) => {
    const start = index === 0 ? 0 : ends[index - 1]!;
    if (token.kind === 'field' && token.field !== null)
      visit[token.field] = readCode(token.field, text.slice(start, ends[index]));
  });
  return visit;
}

/** Where a token that starts at `at` may end, the longest first. */
function endsOf(token: Token, text: string, at: number): number[] {
  if (token.kind === 'text') return text.startsWith(token.text, at) ? [at + token.text.length] : [];
  if (token.kind === 'any' && token.across) return from(at, text.length);
  const slash = text.indexOf('/', at);
  const last = slash < 0 ? text.length : slash;
  if (token.kind === 'any') return from(at, last);
  if (token.field === 'on') return [at + 10, at + 8].filter((end) => readCode('on', text.slice(at, end)) !== null);
  return from(at + 1, last);
}

function from(first: number, last: number): number[] {
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => last - index);
}
