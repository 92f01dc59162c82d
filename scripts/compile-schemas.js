// Compiles the JSON Schemas that the core validates with into plain functions, so that neither the command nor a
// page with a strict content security policy has to compile anything.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import standaloneCode from 'ajv/dist/standalone/index.js';
import { build } from 'esbuild';

const root = new URL('../', import.meta.url);
const out = new URL('src/core/schemas/compiled/', root);
const schemas = {
  'marker-set': 'validateMarkerSet',
  session: 'validateSession',
  norms: 'validateNorms',
  study: 'validateStudy',
};

export async function compileSchemas() {
  mkdirSync(out, { recursive: true });
  for (const [name, exported] of Object.entries(schemas)) {
    const schema = JSON.parse(
      readFileSync(new URL(`shared/schemas/${name}.schema.json`, root), 'utf8'),
      withoutAnnotations,
    );
    const ajv = new Ajv2020({
      allErrors: false,
      discriminator: true,
      strictTypes: false,
      strictRequired: false,
      inlineRefs: false,
      unicodeRegExp: true,
      messages: false,
      code: { source: true, esm: true, optimize: 2 },
    });
    const code = standaloneCode
      .default(ajv, ajv.compile(schema))
      .replace('export default', `export const ${exported} =`);
    const bundled = await build({
      stdin: { contents: code, resolveDir: new URL('.', root).pathname, loader: 'js' },
      bundle: true,
      write: false,
      format: 'esm',
      target: 'es2022',
      minifySyntax: true,
      minifyWhitespace: true,
      logLevel: 'error',
    });
    writeFileSync(new URL(`${name}.js`, out), bundled.outputFiles[0].text);
    writeFileSync(
      new URL(`${name}.d.ts`, out),
      `export interface SchemaError {
  instancePath: string;
  schemaPath: string;
  keyword: string;
  params: Record<string, unknown>;
  message?: string;
  data?: unknown;
}
export const ${exported}: { (data: unknown): boolean; errors?: SchemaError[] | null };
`,
    );
  }
}

/** What people read in a schema decides nothing and would be a fifth of the functions. A field may bear these names too. */
function withoutAnnotations(key, value) {
  return (key === 'description' || key === 'title' || key === '$comment') && typeof value === 'string'
    ? undefined
    : value;
}
