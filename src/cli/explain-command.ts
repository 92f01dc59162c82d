import { TextPage } from '../core/report/text-page.ts';
import { shippedMarkerSets } from '../node/read-marker-set-file.ts';
import type { CommandContext } from './command-context.ts';
import type { CheckEngine } from './engine.ts';
import { allTopics, findTopics, nearestWords } from './explain/all-topics.ts';
import { type Topic, type TopicGroup, topicGroups } from './explain/topic.ts';
import { readMarkerSet } from './read-inputs.ts';
import { UsageError } from './usage-error.ts';

export interface ExplainOptions {
  readonly markerSet: string;
}

/**
 * Prints what the documentation and the marker set hold about a word, or without one the list of words.
 * @throws {UsageError | InputError} where the word is not known, or the marker set cannot be used.
 */
export async function explainCommand(
  word: string | undefined,
  { markerSet }: ExplainOptions,
  context: CommandContext,
): Promise<number> {
  const engine = await context.engine.check();
  const set = await readMarkerSet(engine, markerSet);
  const topics = await allTopics(set);
  const page = new TextPage({ columns: context.columns, color: context.color(undefined) });
  if (word === undefined) writeList(page, topics, set.name);
  else {
    const found = findTopics(topics, word);
    if (found.length === 0) throw await unknown(word, topics, set.name, engine);
    for (const [index, topic] of found.entries()) {
      if (index > 0) page.blank(2);
      await topic.write(page);
    }
  }
  await context.channels.report(page.toString());
  return 0;
}

const headings: Readonly<Record<TopicGroup, (set: string) => string>> = {
  rule: (set) => `Rules of ${set}`,
  marker: (set) => `Markers of ${set}`,
  kind: () => 'Kinds of rules',
  problem: () => 'Problems that a report tells of',
  warning: () => 'Warnings about C3D files',
  word: () => 'Words of a report',
};

function writeList(page: TextPage, topics: readonly Topic[], set: string): void {
  page.paragraph('What can be explained, such as: setsquare explain heel-level');
  for (const group of topicGroups) {
    const words = topics.filter((topic) => topic.group === group && topic.listed).map(({ word }) => word);
    page.heading(headings[group](set));
    page.paragraph(words.join(', '), { indent: 2 });
  }
}

async function unknown(
  word: string,
  topics: readonly Topic[],
  setName: string,
  engine: CheckEngine,
): Promise<UsageError> {
  const shown = word.length > 60 ? `${word.slice(0, 60)}...` : word;
  for (const name of await shippedMarkerSets()) {
    if (name === setName) continue;
    const elsewhere = findTopics(await allTopics(await readMarkerSet(engine, name)), word);
    if (elsewhere.length > 0) {
      return new UsageError(`${shown} is not in ${setName}, it is in ${name}; add --marker-set ${name}.`);
    }
  }
  const near = nearestWords(topics, word);
  const perhaps = near.length === 0 ? '' : `perhaps ${inWords(near)} is meant; `;
  return new UsageError(`Nothing that can be explained is called "${shown}"; ${perhaps}setsquare explain lists all.`);
}

function inWords(words: readonly string[]): string {
  return words.length === 1 ? words[0]! : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;
}
