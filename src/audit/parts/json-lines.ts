import { createReadStream } from 'node:fs';
import { open } from 'node:fs/promises';
import { createInterface } from 'node:readline';

/** Lines of a text file, one at a time. */
export async function* linesOf(path: string): AsyncIterable<string> {
  const lines = createInterface({ input: createReadStream(path), crlfDelay: Number.POSITIVE_INFINITY });
  for await (const line of lines) if (line !== '') yield line;
}

/** Single rows would cost a call each. */
const heldCharacters = 1 << 18;

/** Writes texts one after the other to a new file, never ahead of the disk. It is closed in the end, whatever happens. */
export async function writeTexts(path: string, texts: AsyncIterable<string>): Promise<void> {
  const file = await open(path, 'wx', 0o600);
  try {
    let held = '';
    for await (const text of texts) {
      held += text;
      if (held.length < heldCharacters) continue;
      await file.writeFile(held);
      held = '';
    }
    await file.writeFile(held);
    await file.sync();
  } finally {
    await file.close();
  }
}
