import { escapeControls } from '../core/report/escape-controls.ts';

/** The value with every string in it made safe to show: codes come from files, and a browser or a reader would obey some. */
export function escapeStrings<Value>(value: Value): Value {
  return escaped(value) as Value;
}

function escaped(value: unknown): unknown {
  if (typeof value === 'string') return escapeControls(value);
  if (Array.isArray(value)) return value.map(escaped);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, item]) => [key, escaped(item)]));
}
