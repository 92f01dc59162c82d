import { type FileHandle, open } from 'node:fs/promises';
import { describeSystemError } from './describe-system-error.ts';
import { InputError } from './input-error.ts';

const chunkBytes = 1 << 16;

/**
 * Reads a file of at most `capBytes`, also one without a size of its own such as a pipe. `what` names it in
 * sentences ("marker set my-lab.json").
 * @throws {InputError} where it cannot be read or is larger.
 */
export async function readCapped(path: string, capBytes: number, what: string): Promise<Uint8Array> {
  const bytes = await readUpTo(path, capBytes).catch((error: unknown) => {
    throw describeSystemError(`Cannot read ${what}`, error);
  });
  if (bytes) return bytes;
  throw new InputError(
    `Cannot read ${what}: it holds more than ${capBytes >> 20} MB, the most that is read`,
    'check that it is the file you mean',
  );
}

/** Null where there is more than `capBytes`. */
async function readUpTo(path: string, capBytes: number): Promise<Uint8Array | null> {
  const file = await open(path, 'r');
  try {
    const { size } = await file.stat();
    return size > capBytes ? null : await readAll(file, size, capBytes);
  } finally {
    await file.close();
  }
}

async function readAll(file: FileHandle, size: number, capBytes: number): Promise<Uint8Array | null> {
  const chunks: Uint8Array[] = [];
  let total = 0;
  while (total <= capBytes) {
    const chunk = new Uint8Array(Math.max(size - total, chunkBytes));
    const { bytesRead } = await file.read(chunk, 0, chunk.length);
    if (bytesRead === 0) return joined(chunks, total);
    chunks.push(chunk.subarray(0, bytesRead));
    total += bytesRead;
  }
  return null;
}

function joined(chunks: readonly Uint8Array[], total: number): Uint8Array {
  if (chunks.length === 1) return chunks[0]!;
  const bytes = new Uint8Array(total);
  let at = 0;
  for (const chunk of chunks) {
    bytes.set(chunk, at);
    at += chunk.length;
  }
  return bytes;
}
