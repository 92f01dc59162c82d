import { once } from 'node:events';
import { createReadStream, createWriteStream } from 'node:fs';
import { createInterface } from 'node:readline';

/** Lines of a text file, one at a time. */
export async function* linesOf(path: string): AsyncIterable<string> {
  const lines = createInterface({ input: createReadStream(path), crlfDelay: Number.POSITIVE_INFINITY });
  for await (const line of lines) if (line !== '') yield line;
}

/** Writes texts one after the other, never ahead of the disk. */
export async function writeTexts(path: string, texts: AsyncIterable<string>): Promise<void> {
  const stream = createWriteStream(path, { flags: 'wx', mode: 0o600, flush: true });
  const failed = once(stream, 'error').then(([error]) => Promise.reject(error));
  failed.catch(() => {});
  const write = async (text: string): Promise<void> => {
    if (!stream.write(text)) await Promise.race([once(stream, 'drain'), failed]);
  };
  // Single rows would cost a call each.
  let held = '';
  for await (const text of texts) {
    held += text;
    if (held.length < 1 << 18) continue;
    await write(held);
    held = '';
  }
  await write(held);
  stream.end();
  await Promise.race([once(stream, 'close'), failed]);
}
