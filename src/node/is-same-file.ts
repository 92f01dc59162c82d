import { stat } from 'node:fs/promises';

/** Whether two paths lead to one file that exists, whatever links lie between. */
export async function isSameFile(a: string, b: string): Promise<boolean> {
  const [first, second] = await Promise.all([a, b].map((path) => stat(path).catch(() => null)));
  return !!first && !!second && first.isFile() && first.dev === second.dev && first.ino === second.ino;
}
