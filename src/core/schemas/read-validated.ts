import { type Fault, type FileKind, faultAt } from './fault.ts';
import { findJsonFault } from './find-json-fault.ts';
import { type SchemaError, schemaSentence } from './schema-sentence.ts';

const mostBytes = 1_000_000;

/** A compiled schema. */
export interface Validate {
  (data: unknown): boolean;
  errors?: SchemaError[] | null;
}

/** The data of a small JSON file that follows its schema, or the first fault in it. */
export function readValidated(
  kind: FileKind,
  text: string,
  validate: Validate,
): { readonly data: unknown } | { readonly fault: Fault } {
  if (utf8Length(text) > mostBytes) {
    const trouble =
      'found a file of more than 1 MB, expected at most 1,000,000 bytes; check that it is the file you mean';
    return { fault: faultAt(kind, null, '/', trouble) };
  }
  const json = text.startsWith('\ufeff') ? text.slice(1) : text;
  const broken = findJsonFault(json);
  if (broken !== null) {
    const { pointer, line, character, trouble } = broken;
    const inside = pointer === '/' ? '' : ` (in ${pointer})`;
    const message = `${kind}, line ${line}, character ${character}${inside}: ${trouble}.`;
    return { fault: { pointer, message } };
  }
  const data: unknown = JSON.parse(json);
  const other = otherKind(kind, data);
  if (other !== null) return { fault: faultAt(kind, data, '/format', other) };
  return validate(data) ? { data } : { fault: schemaSentence(kind, data, validate.errors!) };
}

/** The file of another kind that was taken for this one: an easy slip, and no field of it is to be mended. */
function otherKind(kind: FileKind, data: unknown): string | null {
  const format = data !== null && typeof data === 'object' && 'format' in data ? data.format : null;
  const found = typeof format === 'string' ? /^setsquare-([a-z-]{1,40})\/\d{1,3}$/.exec(format) : null;
  if (found === null || found[1] === kind.replace(' ', '-')) return null;
  return `found "${format}", which is a file of another kind, expected a ${kind}; choose the other file`;
}

/** Bytes in UTF-8; at least the characters where there are far too many. */
function utf8Length(text: string): number {
  if (text.length > mostBytes) return text.length;
  let bytes = 0;
  for (const character of text) {
    const code = character.codePointAt(0)!;
    bytes += code < 0x80 ? 1 : code < 0x800 ? 2 : code < 0x10000 ? 3 : 4;
  }
  return bytes;
}
