import { type Fault, type FileKind, faultAt } from './fault.ts';
import { pointerSteps, valueAt } from './json-pointer.ts';
import { knownFields } from './known-fields.ts';
import { nearestName } from './nearest-name.ts';
import { patternInWords } from './pattern-words.ts';
import { allOf, anyOf, quoted, show } from './show-value.ts';

/** What a compiled validator reports. */
export interface SchemaError {
  readonly instancePath: string;
  readonly keyword: string;
  readonly params: Readonly<Record<string, unknown>>;
}

/** The sentence for what a compiled validator reports: its first error is the one to mend first. */
export function schemaSentence(kind: FileKind, data: unknown, errors: readonly SchemaError[]): Fault {
  // An error about a field's name comes first as an error about a text that stands nowhere as a value.
  const error = errors.find(({ keyword }) => keyword === 'propertyNames') ?? errors[0]!;
  const { instancePath, params } = error;
  const found = show(valueAt(data, instancePath));
  const fields = { kind, data, pointer: instancePath };
  switch (error.keyword) {
    case 'required':
    case 'dependentRequired':
      return faultAt(kind, data, instancePath, missing(fields, String(params.missingProperty)));
    case 'additionalProperties':
      return faultAt(kind, data, instancePath, unknownField(fields, String(params.additionalProperty)));
    case 'unevaluatedProperties':
      return faultAt(kind, data, instancePath, unknownField(fields, String(params.unevaluatedProperty)));
    case 'propertyNames':
      return faultAt(kind, data, instancePath, unknownField(fields, String(params.propertyName)));
    default:
      return faultAt(kind, data, instancePath, trouble(error, found, valueAt(data, instancePath)));
  }
}

interface Place {
  readonly kind: FileKind;
  readonly data: unknown;
  readonly pointer: string;
}

function missing({ kind, data, pointer }: Place, field: string): string {
  const fields = knownFields(kind, data, pointer);
  const there = Object.keys(valueAt(data, pointer) as object);
  const misspelt = nearestName(
    field,
    there.filter((name) => !fields.includes(name)),
  );
  if (misspelt !== null)
    return `found ${quoted(misspelt)}, which is not a field that is known here; write ${quoted(field)} in its place`;
  if (pointerSteps(pointer).at(-1) === 'allowed')
    return `found no "${field}", expected either "target" with "limit", or "range"; add what is missing`;
  return `found no ${quoted(field)}, which is needed here; add it`;
}

function unknownField({ kind, data, pointer }: Place, field: string): string {
  const fields = knownFields(kind, data, pointer);
  if (fields.includes(field))
    return `found ${quoted(field)}, which does not go with what else stands here; take it out`;
  if (fields.length === 0)
    return `found ${quoted(field)}, which cannot be a name here; take it out or write it otherwise`;
  const nearest = nearestName(field, fields);
  const found = `found ${quoted(field)}, which is not a field that is known here`;
  if (nearest === null) return `${found}; known are ${allOf(fields)}, so check its spelling or take it out`;
  return Object.hasOwn(valueAt(data, pointer) as object, nearest)
    ? `${found}, beside ${quoted(nearest)}; take it out`
    : `${found}; write ${quoted(nearest)} if that is meant, or take it out`;
}

function trouble({ keyword, params }: SchemaError, found: string, value: unknown): string {
  switch (keyword) {
    case 'type':
      return value === null
        ? `found null, expected ${types(params.type)}; leave the field out where there is nothing to say`
        : `found ${found}, expected ${types(params.type)}; ${typeof value === 'string' && [params.type].flat().includes('number') ? 'write it without quotes, with a point for the decimals' : 'correct it'}`;
    case 'enum':
    case 'discriminator':
      return alternatives(found, value, [params.allowedValues ?? []].flat());
    case 'const':
      return params.allowedValue === 'stature'
        ? `found ${found}, expected "stature", or a line with "from" and "to"; write one of them`
        : `found ${found}, expected ${show(params.allowedValue)}; write it so`;
    case 'minimum':
      return `found ${found}, expected a number of at least ${params.limit}; correct it, and check its unit`;
    case 'exclusiveMinimum':
      return `found ${found}, expected a number above ${params.limit}; correct it`;
    case 'maximum':
      return `found ${found}, expected a number of at most ${params.limit}; correct it, and check its unit`;
    case 'minItems':
      return `found ${count(value, 'entry', 'entries')}, expected at least ${params.limit}; add what is missing`;
    case 'maxItems':
      return `found ${count(value, 'entry', 'entries')}, expected at most ${params.limit}; take some out`;
    case 'maxProperties':
      return `found more fields than are allowed, expected at most ${params.limit}; take some out`;
    case 'minLength':
      return 'found an empty text, expected some words; write them';
    case 'maxLength':
      return `found a text of ${String(value).length} characters, expected at most ${params.limit}; shorten it`;
    case 'pattern':
      return `found ${found}, expected ${patternInWords(String(params.pattern)) ?? 'another form'}; correct it`;
    case 'uniqueItems':
      return `found ${show(repeated(value))} twice, expected each once; take one out`;
    default:
      return `found ${found}, which the schema of this format does not allow (${keyword}); correct it`;
  }
}

function alternatives(found: string, value: unknown, allowed: readonly unknown[]): string {
  const nearest = typeof value === 'string' ? nearestName(value, allowed.map(String)) : null;
  const advice = nearest === null ? 'choose one of these' : `perhaps ${quoted(nearest)} is meant`;
  return `found ${found}, expected ${anyOf(allowed)}; ${advice}`;
}

const typeWords: Readonly<Record<string, string>> = {
  number: 'a number',
  string: 'a text in quotes',
  boolean: 'true or false',
  array: 'a list in square brackets',
  object: 'an object in braces',
  null: 'null',
};

function types(type: unknown): string {
  return [type]
    .flat()
    .map((name) => typeWords[String(name)])
    .join(' or ');
}

function count(value: unknown, one: string, several: string): string {
  const number = Array.isArray(value) ? value.length : 0;
  return number === 1 ? `1 ${one}` : `${number} ${several}`;
}

function repeated(value: unknown): unknown {
  if (!Array.isArray(value)) return value;
  const seen = new Set<string>();
  return value.find((item) => {
    const key = JSON.stringify(item);
    if (seen.has(key)) return true;
    seen.add(key);
    return false;
  });
}
