/** What a compiled validator reports; the first error is the one to mend first. */
export interface SchemaError {
  readonly instancePath: string;
  readonly keyword: string;
  readonly params: Readonly<Record<string, unknown>>;
}

/**
 * One sentence a physiotherapist can follow from a schema error: where (JSON pointer), what was found, what was
 * expected, what to do.
 */
export function schemaSentence(what: string, data: unknown, error: SchemaError): { pointer: string; message: string } {
  const pointer = error.instancePath === '' ? '/' : error.instancePath;
  return {
    pointer,
    message: `${what}, at ${show(pointer, true)}: ${trouble(error, valueAt(data, error.instancePath))}`,
  };
}

/** The value that a JSON pointer (RFC 6901) names. */
function valueAt(data: unknown, pointer: string): unknown {
  return pointer
    .split('/')
    .slice(1)
    .reduce<unknown>((value, step) => {
      const key = step.replaceAll('~1', '/').replaceAll('~0', '~');
      return value !== null && typeof value === 'object' && Object.hasOwn(value, key)
        ? (value as Record<string, unknown>)[key]
        : undefined;
    }, data);
}

function trouble({ keyword, params }: SchemaError, data: unknown): string {
  const found = show(data);
  switch (keyword) {
    case 'required':
      return `"${show(params.missingProperty, true)}" is not there; add it.`;
    case 'additionalProperties':
    case 'unevaluatedProperties':
      return `"${show(params.additionalProperty ?? params.unevaluatedProperty, true)}" is not a field that is known here; check its spelling or take it out.`;
    case 'type':
      return `found ${found}, expected ${words([params.type].flat())}; correct it.`;
    case 'enum':
      return `found ${found}, expected one of ${words([params.allowedValues].flat())}; choose one of these.`;
    case 'const':
      return `found ${found}, expected ${show(params.allowedValue)}; write it so.`;
    case 'minimum':
      return `found ${found}, expected a number of at least ${params.limit}; correct it.`;
    case 'exclusiveMinimum':
      return `found ${found}, expected a number above ${params.limit}; correct it.`;
    case 'maximum':
      return `found ${found}, expected a number of at most ${params.limit}; correct it.`;
    case 'minItems':
      return `the list is too short; expected at least ${params.limit}.`;
    case 'maxItems':
      return `the list is too long; expected at most ${params.limit}.`;
    case 'maxProperties':
      return `there are too many fields; expected at most ${params.limit}.`;
    case 'minLength':
      return 'the text is empty; write something.';
    case 'maxLength':
      return `the text is too long; expected at most ${params.limit} characters.`;
    case 'pattern':
      return `found ${found}, expected a text of the form ${params.pattern}; correct it.`;
    case 'uniqueItems':
      return 'the same entry stands there twice; take one out.';
    case 'discriminator':
      return `"${show(params.tag, true)}" is ${show(params.tagValue)}, which is not a kind that is known; check its spelling.`;
    case 'oneOf':
      return `found ${found}, which fits none of the forms allowed here; see the schema's description of this field.`;
    default:
      return `found ${found}, which breaks the rule "${keyword}" of the schema; correct it.`;
  }
}

function words(values: readonly unknown[]): string {
  return values
    .map((value) =>
      value === 'number' || value === 'object' || value === 'array' || value === 'string'
        ? `a${value === 'array' || value === 'object' ? 'n' : ''} ${value}`
        : show(value),
    )
    .join(', ');
}

/** Short and free of control characters, whatever the file holds. */
function show(value: unknown, bare = false): string {
  if (value !== null && typeof value === 'object') return Array.isArray(value) ? 'a list' : 'an object';
  const text = value === undefined ? 'nothing' : bare ? String(value) : JSON.stringify(value);
  const clean = text.replace(/[^\x20-\x7e\u00a1-\u1fff]/g, '?');
  return clean.length > 60 ? `${clean.slice(0, 57)}...` : clean;
}
