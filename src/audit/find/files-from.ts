import { readCapped } from '../../node/read-capped.ts';
import type { FoundFile } from './find-trials.ts';

/** Ten million paths of a hundred characters. */
const capBytes = 1 << 30;

/** Paths from a list, one a line or, where the list has any, ended by NUL (`find -print0`). Each once, in their order. */
export function filesFrom(text: string): FoundFile[] {
  const lines = text.includes('\0') ? text.split('\0') : text.split(/\r?\n/);
  return [...new Set(lines.filter((line) => line !== ''))].map((path) => ({ path, below: path }));
}

/** The list itself: a file, or standard input for `-`. */
export async function readFileList(source: string, stdin: AsyncIterable<Uint8Array | string>): Promise<string> {
  if (source !== '-') return new TextDecoder().decode(await readCapped(source, capBytes, 'the list of files'));
  const decoder = new TextDecoder();
  let text = '';
  for await (const chunk of stdin) text += typeof chunk === 'string' ? chunk : decoder.decode(chunk, { stream: true });
  return text + decoder.decode();
}
