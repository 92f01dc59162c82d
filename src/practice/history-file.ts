import {
  accessSync,
  closeSync,
  constants,
  existsSync,
  fstatSync,
  fsyncSync,
  openSync,
  readSync,
  writeSync,
} from 'node:fs';
import { stat } from 'node:fs/promises';
import { dirname } from 'node:path';
import { emptyHistory, type History, type HistoryLine, historyLine, parseHistory } from '../core/practice/history.ts';
import { describeSystemError } from '../node/describe-system-error.ts';
import { readCapped } from '../node/read-capped.ts';

/** A hundred thousand answers. */
const capBytes = 64 << 20;
const lineBreak = 0x0a;

/** A history as it lies there; empty where there is none yet. @throws {InputError} where it cannot be read */
export async function readHistory(path: string): Promise<History> {
  if ((await stat(path).catch(() => null)) === null) return emptyHistory;
  return parseHistory(new TextDecoder().decode(await readCapped(path, capBytes, 'the practice history')));
}

/** Before anybody answers anything that could then not be kept. @throws {InputError} */
export function checkHistoryWritable(path: string): void {
  try {
    accessSync(existsSync(path) ? path : dirname(path), constants.W_OK);
  } catch (error) {
    throw describeSystemError('Cannot write the practice history', error);
  }
}

/**
 * Adds lines at the end, on the disk when this returns. A last line that a stopped machine left torn is closed first, so
 * that it costs itself alone; what another program adds at the same time stays whole.
 * @throws {InputError} where it cannot be written
 */
export function appendHistory(path: string, ...lines: readonly HistoryLine[]): void {
  try {
    const file = openSync(path, 'a+', 0o600);
    try {
      const { size } = fstatSync(file);
      const last = Buffer.alloc(1);
      const isTorn = size > 0 && readSync(file, last, 0, 1, size - 1) === 1 && last[0] !== lineBreak;
      const bytes = Buffer.from(`${isTorn ? '\n' : ''}${lines.map((line) => `${historyLine(line)}\n`).join('')}`);
      for (let written = 0; written < bytes.length; ) written += writeSync(file, bytes, written);
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
  } catch (error) {
    throw describeSystemError('Cannot write the practice history', error);
  }
}
