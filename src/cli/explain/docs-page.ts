import { join } from 'node:path';
import { InputError } from '../../node/input-error.ts';
import { packageRoot } from '../../node/package-root.ts';
import { readTextFile } from '../../node/read-text-file.ts';
import { type Block, markdownBlocks } from './markdown-blocks.ts';

/**
 * A page of the documentation that is installed with the program: what is explained stands there and nowhere else.
 * @throws {InputError} where it is not there.
 */
export async function docsPage(name: string): Promise<Block[]> {
  const { text } = await readTextFile(join(packageRoot, 'docs', name), `docs/${name}`).catch((error: unknown) => {
    if (!(error instanceof InputError)) throw error;
    throw new InputError(error.found, 'it comes with setsquare, so install that again', { cause: error });
  });
  return markdownBlocks(text);
}

/** Rows of the first table of a page, without its head. */
export function firstTable(blocks: readonly Block[]): readonly (readonly string[])[] {
  const table = blocks.find((block) => block.kind === 'table');
  return table === undefined ? [] : table.rows.slice(1);
}
