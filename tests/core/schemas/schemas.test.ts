import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { validateMarkerSet } from '../../../src/core/schemas/compiled/marker-set.js';
import { validateSession } from '../../../src/core/schemas/compiled/session.js';
import { knownFields } from '../../../src/core/schemas/known-fields.ts';
import { patternInWords } from '../../../src/core/schemas/pattern-words.ts';

// biome-ignore lint/suspicious/noExplicitAny: a schema is walked as data.
type Loose = any;

const read = (path: string): Loose => JSON.parse(readFileSync(new URL(`../../../${path}`, import.meta.url), 'utf8'));
const schemas = {
  'marker set': read('shared/schemas/marker-set.schema.json'),
  session: read('shared/schemas/session.schema.json'),
} as const;
const both = Object.entries(schemas) as [keyof typeof schemas, Loose][];

/** Every schema inside a schema, with its place. */
function* subschemas(schema: Loose, place = '#'): Generator<[string, Loose]> {
  if (schema === null || typeof schema !== 'object') return;
  yield [place, schema];
  for (const [key, value] of Object.entries<Loose>(schema)) {
    if (key === 'if' || key === 'enum' || key === 'required' || key === 'const') continue;
    if (key === 'properties' || key === '$defs') {
      for (const [name, inner] of Object.entries(value)) yield* subschemas(inner, `${place}/${key}/${name}`);
    } else if (Array.isArray(value)) {
      for (const [index, inner] of value.entries()) yield* subschemas(inner, `${place}/${key}/${index}`);
    } else yield* subschemas(value, `${place}/${key}`);
  }
}

describe.each(both)('schema of a %s', (kind, schema) => {
  it('is strict 2020-12, with the discriminator of OpenAPI as the only word beyond it', () => {
    expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema');
    const ajv = new Ajv2020({ strict: true, allowUnionTypes: true, unicodeRegExp: true });
    ajv.addVocabulary(['discriminator']);
    expect(() => ajv.compile(schema)).not.toThrow();
  });

  it('describes every field, with its unit', () => {
    let fields = 0;
    for (const [place, inner] of subschemas(schema)) {
      for (const [name, field] of Object.entries<Loose>(inner.properties ?? {})) {
        fields += 1;
        expect(`${place} ${name}: ${field.description}`).toMatch(/: [A-Z"a-z].{3,}\.$/);
        if (name.endsWith('Mm')) expect(`${name}: ${field.description}`).toMatch(/\bmm\b/);
        if (name.endsWith('Deg')) expect(`${name}: ${field.description}`).toMatch(/\bdegrees\b/);
      }
    }
    expect(fields).toBeGreaterThan(25);
  });

  it('closes every object: a field that is not described is refused', () => {
    for (const [place, inner] of subschemas(schema)) {
      if (inner.properties === undefined || inner.discriminator !== undefined) continue;
      if (place.startsWith('#/$defs/geometry/oneOf')) continue; // Closed by the rule or stance item around it.
      expect([place, inner.additionalProperties ?? inner.unevaluatedProperties]).toEqual([place, false]);
    }
  });

  it('has words for every pattern', () => {
    for (const [place, inner] of subschemas(schema)) {
      if (inner.pattern !== undefined) expect([place, patternInWords(inner.pattern)]).not.toContain(null);
    }
  });

  it('bounds every text, list and number', () => {
    for (const [place, inner] of subschemas(schema)) {
      const types = [inner.type].flat();
      if (types.includes('array') && inner.if === undefined)
        expect([place, typeof inner.maxItems]).toEqual([place, 'number']);
      if (types.includes('number')) expect([place, typeof inner.maximum]).toEqual([place, 'number']);
      if (types.includes('string') && inner.if === undefined && !place.endsWith('$schema'))
        expect([place, inner.maxLength !== undefined || /\{\d+[,}]/.test(inner.pattern)]).toEqual([place, true]);
    }
  });

  it('knows the fields that the suggestions know', () => {
    for (const [place, kindOf] of placesOf(kind)) {
      const fields = fieldsAt(schema, place, kindOf);
      const data = dataAt(place, kindOf);
      expect([place, kindOf, [...new Set(knownFields(kind, data, place))].sort()]).toEqual([place, kindOf, fields]);
    }
  });
});

/** One pointer for each object of the format; rules and virtual points for each of their kinds. */
function placesOf(kind: keyof typeof schemas): [string, string | null][] {
  if (kind === 'session') {
    const facts = ['kneeTurnDeg', 'tibialTorsionDeg', 'heelRaiseMm', 'heelSoleDifferenceMm', 'block'];
    return [
      '/',
      '/subject',
      '/visit',
      '/measurements/0',
      '/facts',
      '/facts/variants/0',
      '/facts/contractures/0',
      '/accepted/0',
      '/confirmed/0',
    ]
      .concat(facts.map((fact) => `/facts/${fact}`))
      .map((place) => [place, null]);
  }
  const { geometry, virtualPoint } = schemas['marker set'].$defs;
  const kinds: string[] = geometry.oneOf.map((branch: Loose) => branch.properties.kind.const);
  const constructs: string[] = virtualPoint.oneOf.map((branch: Loose) => branch.properties.construct.const);
  return [
    ...[
      '/',
      '/markers/3',
      '/markers/3/aliases',
      '/markers/3/scatterMm',
      '/markers/3/toward',
      '/measurementsIn/0',
      '/segments/0',
    ].map((place): [string, null] => [place, null]),
    ...[
      '/segments/0/longAxis',
      '/segments/0/forward',
      '/views/1',
      '/views/1/estimate',
      '/bodyAxes',
      '/bodyAxes/forward/0',
    ].map((place): [string, null] => [place, null]),
    ...['/orders/9', '/variants/0', '/variants/0/suspends/12', '/variants/0/allowed/7', '/stillness'].map(
      (place): [string, null] => [place, null],
    ),
    ['/rules/0/shiftedBy/0', null],
    ['/rules/0/allowed', 'pair-level'],
    ['/variants/0/allowed/heel-level/allowed', null],
    ['/rules/0/allowedTurn', 'point-in-line'],
    ['/rules/0/reachFrom', 'point-in-line'],
    ['/rules/0/per', 'distance-in-range'],
    ['/stance/0/right', 'pair-mirrored'],
    ...constructs.map((construct): [string, string] => ['/virtualPoints/0', construct]),
    ...kinds.flatMap((name): [string, string][] => [
      ['/rules/0', name],
      ['/stance/0', name],
    ]),
  ];
}

function dataAt(place: string, kindOf: string | null): Loose {
  const [list] = place.split('/').slice(1);
  return { [list!]: [{ kind: kindOf, construct: kindOf }] };
}

/** Fields that the schema has at a pointer, found by walking it. */
function fieldsAt(root: Loose, place: string, kindOf: string | null): string[] {
  let here: Loose[] = [root];
  for (const step of place
    .split('/')
    .slice(1)
    .filter((part) => part !== '')) {
    here = here
      .flatMap((schema) => spread(root, schema, kindOf))
      .flatMap((schema) => {
        if (schema.properties?.[step] !== undefined) return [schema.properties[step]];
        if (schema.items !== undefined && /^\d+$/.test(step)) return [schema.items];
        return typeof schema.additionalProperties === 'object' ? [schema.additionalProperties] : [];
      });
  }
  const fields = here
    .flatMap((schema) => spread(root, schema, kindOf))
    .flatMap((schema) => Object.keys(schema.properties ?? {}));
  return [...new Set(fields)].sort();
}

/** A schema with all that holds at the same place. */
function spread(root: Loose, schema: Loose, kindOf: string | null): Loose[] {
  const inner: Loose[] = [
    ...(schema.$ref === undefined ? [] : [root.$defs[schema.$ref.split('/').at(-1)]]),
    ...['then', 'else'].flatMap((word) => (schema[word] === undefined ? [] : [schema[word]])),
    ...(schema.oneOf ?? []).filter((branch: Loose) =>
      [branch.properties.kind?.const, branch.properties.construct?.const].includes(kindOf),
    ),
  ];
  return [schema, ...inner.flatMap((each) => spread(root, each, kindOf))];
}

describe('compiled validators', () => {
  const ajv = new Ajv2020({ strict: true, allowUnionTypes: true, unicodeRegExp: true });
  ajv.addVocabulary(['discriminator']);
  const independent = { 'marker set': ajv.compile(schemas['marker set']), session: ajv.compile(schemas.session) };

  it.each(['lower-limb-wands-22', 'lower-limb-medial-20'])('agree with an independent one that %s is valid', (name) => {
    const set = read(`shared/marker-sets/${name}.json`);
    expect([validateMarkerSet(set), independent['marker set'](set)]).toEqual([true, true]);
  });

  it('agree with an independent one on every field that is left out or replaced', () => {
    const texts = [
      JSON.stringify(read('shared/marker-sets/lower-limb-wands-22.json')),
      JSON.stringify(read('sample-trials/supinated-foot.session.json')),
    ] as const;
    let invalid = 0;
    for (const [kind, validate, text] of [
      ['marker set', validateMarkerSet, texts[0]],
      ['session', validateSession, texts[1]],
    ] as const) {
      const places = kind === 'marker set' ? 60 : 40;
      for (let index = 0; index < places; index++) {
        for (const value of [undefined, null, -1, 'x', []]) {
          const data = JSON.parse(text);
          replace(data, index * 7, value);
          const said = validate(data);
          expect([kind, index, value, independent[kind](data)]).toEqual([kind, index, value, said]);
          if (!said) invalid += 1;
        }
      }
    }
    expect(invalid).toBeGreaterThan(300);
  });
});

/** Replaces, or leaves out, what is met as the nth when walking the data. */
function replace(data: Loose, index: number, value: unknown): void {
  const places: [Loose, string][] = [];
  (function walk(holder: Loose): void {
    for (const key of Object.keys(holder)) {
      places.push([holder, key]);
      if (holder[key] !== null && typeof holder[key] === 'object') walk(holder[key]);
    }
  })(data);
  const [holder, key] = places[(index * 13) % places.length]!;
  if (value === undefined && !Array.isArray(holder)) delete holder[key];
  else holder[key] = value ?? null;
}
