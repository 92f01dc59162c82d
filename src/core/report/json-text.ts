import { escapeControlsInJson } from './escape-controls.ts';

/** Indented JSON, safe to print. */
export function jsonText(value: unknown): string {
  const lines = JSON.stringify(value, null, 2).split('\n');
  return `${lines.map(escapeControlsInJson).join('\n')}\n`;
}

/** JSON on one line, safe to print. */
export function jsonLine(value: unknown): string {
  return `${escapeControlsInJson(JSON.stringify(value))}\n`;
}
