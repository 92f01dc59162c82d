import { join } from 'node:path';
import { packageRoot } from '../../node/package-root.ts';
import { readTextFile } from '../../node/read-text-file.ts';
import { type Block, markdownBlocks } from './markdown-blocks.ts';

/**
 * A page of the documentation that is installed with the program: what is explained stands there and nowhere else.
 * @throws {InputError} where it is not there.
 */
export async function docsPage(name: string): Promise<Block[]> {
  const { text } = await readTextFile(join(packageRoot, 'docs', name), `the page docs/${name} of setsquare`);
  return markdownBlocks(text);
}

/** Rows of the first table of a page, without its head. */
export function firstTable(blocks: readonly Block[]): readonly (readonly string[])[] {
  const table = blocks.find((block) => block.kind === 'table');
  return table === undefined ? [] : table.rows.slice(1);
}
