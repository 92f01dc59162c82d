import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';

const schemaText = readFileSync(new URL('../../../shared/schemas/report.schema.json', import.meta.url), 'utf8');

/** The schema as it ships. */
export const validateReport = new Ajv2020({ allErrors: true }).compile(JSON.parse(schemaText));

/** The schema with every object closed: what this version prints holds no field that the schema does not describe. */
export const validateClosedReport = new Ajv2020({ allErrors: true }).compile(
  closeObjects(JSON.parse(schemaText)) as object,
);

function closeObjects(schema: unknown): unknown {
  if (Array.isArray(schema)) return schema.map(closeObjects);
  if (schema === null || typeof schema !== 'object') return schema;
  const entries = Object.entries(schema).map(([key, value]) => [key, closeObjects(value)]);
  const isOpen = 'properties' in schema && !('additionalProperties' in schema);
  return Object.fromEntries(isOpen ? [...entries, ['additionalProperties', false]] : entries);
}
