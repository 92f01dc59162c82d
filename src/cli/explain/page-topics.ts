import { sentence } from '../../core/report/sentence.ts';
import type { TextPage } from '../../core/report/text-page.ts';
import { ruleKinds } from '../../core/rule-kinds/all-rule-kinds.ts';
import { docsPage, firstTable } from './docs-page.ts';
import type { Block } from './markdown-blocks.ts';
import type { Topic, TopicGroup } from './topic.ts';

/** A topic for each row of the first table of a page: its word, what it means and, in a third column, what to do. */
export async function tableTopics(group: TopicGroup, pageName: string): Promise<Topic[]> {
  const rows = firstTable(await docsPage(pageName));
  return rows.map(([word = '', meaning = '', remedy = '']) => ({
    group,
    word,
    also: [],
    listed: true,
    write(page) {
      page.paragraph(word, { ink: 'bold' });
      page.paragraph(sentence(meaning), { indent: 2, lead: 'Meaning:   ' });
      if (remedy !== '') page.paragraph(sentence(remedy), { indent: 2, lead: 'To do:     ' });
    },
  }));
}

/** A topic for each kind of rule: its page. */
export function kindTopics(): Topic[] {
  return Object.keys(ruleKinds).map((kind) => ({
    group: 'kind',
    word: kind,
    also: [],
    listed: true,
    async write(page) {
      writeBlocks(page, withoutDrawing(await docsPage(`rules/${kind}.md`)));
    },
  }));
}

/** A terminal shows no drawing, and what is said of its colours means nothing without it. */
function withoutDrawing(blocks: readonly Block[]): Block[] {
  let heading = '';
  return blocks.filter((block) => {
    if (block.kind === 'heading') heading = block.text;
    return heading !== 'Drawing';
  });
}

export function writeBlocks(page: TextPage, blocks: readonly Block[]): void {
  blocks.forEach((block, index) => {
    if (block.kind === 'item' && blocks[index - 1]?.kind === 'item') page.paragraph(block.text, { lead: '- ' });
    else if (block.kind === 'heading') page.heading(block.text);
    else {
      page.blank();
      writeBlock(page, block);
    }
  });
}

function writeBlock(page: TextPage, block: Exclude<Block, { kind: 'heading' }>): void {
  if (block.kind === 'paragraph') page.paragraph(block.text);
  else if (block.kind === 'item') page.paragraph(block.text, { lead: '- ' });
  else if (block.kind === 'code') {
    for (const line of block.lines) page.paragraph(line, { indent: 2 + line.search(/\S|$/) });
  } else if (isOfFigures(block.rows)) page.table(block.rows);
  else {
    for (const [name = '', ...rest] of block.rows.slice(1))
      page.paragraph(`${name}: ${rest.join('; ')}`, { lead: '- ' });
  }
}

/** Figures stand under each other; columns of words would push each other off the page. */
function isOfFigures(rows: readonly (readonly string[])[]): boolean {
  return rows.slice(1).every((row) => row.slice(1).every((cell) => /^-?[\d.]*$/.test(cell)));
}
