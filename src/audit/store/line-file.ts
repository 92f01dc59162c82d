import { closeSync, fsyncSync, ftruncateSync, openSync, readSync, statSync, writeSync } from 'node:fs';
import { describeSystemError } from '../../node/describe-system-error.ts';

const chunkBytes = 1 << 20;
const lineBreak = 0x0a;

/** Where a line lies in its file, without its line break. */
export interface LinePlace {
  readonly offset: number;
  readonly length: number;
}

/**
 * A text file that only grows, line by line. Whatever moment the process is killed at, every line that was appended is
 * whole or, as the last one, torn; a torn line is cut off when the file is opened again.
 */
export class LineFile {
  readonly #descriptor: number;
  readonly #path: string;
  #length: number;
  #isSynced = true;

  /** @throws {InputError} where it cannot be opened. */
  constructor(path: string) {
    this.#path = path;
    this.#descriptor = this.#attempt(() => openSync(path, 'a+', 0o600));
    this.#length = this.#attempt(() => statSync(path).size);
  }

  get path(): string {
    return this.#path;
  }

  /** Walks through the lines from the start and cuts off a torn last one. @param visit is handed a line's own bytes */
  scan(visit: (line: Buffer, place: LinePlace) => void): void {
    let carried = Buffer.alloc(0);
    let carriedAt = 0;
    for (let at = 0; at < this.#length; ) {
      const chunk = Buffer.alloc(Math.min(chunkBytes, this.#length - at));
      const count = this.#attempt(() => readSync(this.#descriptor, chunk, 0, chunk.length, at));
      if (count === 0) break;
      at += count;
      const bytes =
        carried.length === 0 ? chunk.subarray(0, count) : Buffer.concat([carried, chunk.subarray(0, count)]);
      let start = 0;
      for (let end = bytes.indexOf(lineBreak); end >= 0; end = bytes.indexOf(lineBreak, start)) {
        visit(bytes.subarray(start, end), { offset: carriedAt + start, length: end - start });
        start = end + 1;
      }
      carried = Buffer.from(bytes.subarray(start));
      carriedAt += start;
    }
    if (carried.length === 0) return;
    this.#attempt(() => ftruncateSync(this.#descriptor, carriedAt));
    this.#length = carriedAt;
  }

  /** Appends one line by one write. */
  append(text: string): LinePlace {
    const bytes = Buffer.from(`${text}\n`);
    const place = { offset: this.#length, length: bytes.length - 1 };
    for (let written = 0; written < bytes.length; ) {
      const from = written;
      written += this.#attempt(() => writeSync(this.#descriptor, bytes, from));
    }
    this.#length += bytes.length;
    this.#isSynced = false;
    return place;
  }

  read({ offset, length }: LinePlace): string {
    const bytes = Buffer.alloc(length);
    this.#attempt(() => readSync(this.#descriptor, bytes, 0, length, offset));
    return bytes.toString('utf8');
  }

  /** Puts on the disk what was appended: after this a power cut loses nothing either. */
  sync(): void {
    if (this.#isSynced) return;
    this.#attempt(() => fsyncSync(this.#descriptor));
    this.#isSynced = true;
  }

  close(): void {
    this.sync();
    closeSync(this.#descriptor);
  }

  #attempt<Result>(action: () => Result): Result {
    try {
      return action();
    } catch (error) {
      throw describeSystemError(`Cannot use the audit's store at ${this.#path}`, error);
    }
  }
}
