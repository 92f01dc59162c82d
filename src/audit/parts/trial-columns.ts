/** Columns of a part as DuckDB names their types: the schema of docs/audit-store.md. */
const check =
  'STRUCT(rule VARCHAR, side VARCHAR, basis VARCHAR, unit VARCHAR, status VARCHAR, value DOUBLE, expected DOUBLE, "limit" DOUBLE, uncertainty DOUBLE, residual DOUBLE)';
const step =
  'STRUCT(action VARCHAR, marker VARCHAR, forward_mm DOUBLE, outward_mm DOUBLE, up_mm DOUBLE, distance_mm DOUBLE, turn_deg DOUBLE, probability DOUBLE, resolves VARCHAR[])';

export const columnTypes: Readonly<Record<string, string>> = {
  trial: 'VARCHAR',
  sha256: 'VARCHAR',
  path: 'VARCHAR',
  subject: 'VARCHAR',
  assessor: 'VARCHAR',
  site: 'VARCHAR',
  visit_on: 'DATE',
  age_years: 'DOUBLE',
  sex: 'VARCHAR',
  facts: 'VARCHAR[]',
  has_session: 'BOOLEAN',
  session_fault: 'VARCHAR',
  marker_set: 'VARCHAR',
  marker_set_version: 'VARCHAR',
  marker_set_sha256: 'VARCHAR',
  norms: 'VARCHAR',
  tool: 'VARCHAR',
  verdict: 'VARCHAR',
  rules_total: 'INTEGER',
  rules_assessed: 'INTEGER',
  frames: 'INTEGER',
  rate_hz: 'DOUBLE',
  sway_mm: 'DOUBLE',
  body_height_mm: 'DOUBLE',
  optional_markers: 'VARCHAR[]',
  fault: 'VARCHAR',
  copies: 'INTEGER',
  checks: `${check}[]`,
  steps: `${step}[]`,
  problems: 'STRUCT(code VARCHAR, markers VARCHAR[])[]',
};

export const trialColumns = `{${Object.entries(columnTypes)
  .map(([name, type]) => `${name}: '${type}'`)
  .join(', ')}}`;
