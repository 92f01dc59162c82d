import type { TrialResult } from '../check/trial-result.ts';
import { LineFile, type LinePlace } from './line-file.ts';

/** What a result hangs on: the file's content, the session beside it, and the fingerprint of everything else. */
export interface ResultKey {
  readonly sha256: string;
  readonly sessionSha256: string | null;
  readonly fingerprint: string;
}

function written({ sha256, sessionSha256, fingerprint }: ResultKey): string {
  return `${sha256}.${sessionSha256 ?? '-'}.${fingerprint}`;
}

const prefix = '{"key":"';
const longestKey = 64 + 1 + 64 + 1 + 16;

/** Results by their key, one line each. A result is in it once, however often it is added. */
export class ResultJournal {
  readonly #lines: LineFile;
  readonly #places = new Map<string, LinePlace>();

  constructor(path: string) {
    this.#lines = new LineFile(path);
    this.#lines.scan((line, place) => {
      // The key stands first: a line need not be parsed to know what it is. One that was damaged later is passed over.
      const start = line.toString('latin1', 0, prefix.length + longestKey + 1);
      const end = start.indexOf('"', prefix.length);
      if (!start.startsWith(prefix) || end < 0 || line.at(-1) !== 0x7d) return;
      this.#places.set(start.slice(prefix.length, end), place);
    });
  }

  get size(): number {
    return this.#places.size;
  }

  has(key: ResultKey): boolean {
    return this.#places.has(written(key));
  }

  /** @param json the result, as a worker wrote it */
  add(key: ResultKey, json: string): void {
    const name = written(key);
    if (!this.#places.has(name)) this.#places.set(name, this.#lines.append(`${prefix}${name}","result":${json}}`));
  }

  get(key: ResultKey): TrialResult | null {
    const place = this.#places.get(written(key));
    if (place === undefined) return null;
    try {
      return JSON.parse(this.#lines.read(place)).result;
    } catch {
      return null;
    }
  }

  sync(): void {
    this.#lines.sync();
  }

  close(): void {
    this.#lines.close();
  }
}
