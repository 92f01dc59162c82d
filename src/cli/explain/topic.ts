import type { TextPage } from '../../core/report/text-page.ts';

export const topicGroups = ['rule', 'marker', 'kind', 'problem', 'warning', 'word'] as const;
export type TopicGroup = (typeof topicGroups)[number];

/** Something that can be explained. */
export interface Topic {
  readonly group: TopicGroup;
  readonly word: string;
  /** What else it is called, such as the labels that a laboratory writes. */
  readonly also: readonly string[];
  /** Whether the list of everything names it: one side of a rule or marker is found without. */
  readonly listed: boolean;
  write(page: TextPage): void | Promise<void>;
}

/** What two sides have in common, in one text: `the right or left heel marker`. */
export function eitherSide(right: string, left: string | undefined): string {
  if (left === undefined || left === right) return right;
  const words = [right.split(' '), left.split(' ')] as const;
  if (words[0].length !== words[1].length) return right;
  return words[0].map((word, index) => (word === words[1][index] ? word : `${word} or ${words[1][index]}`)).join(' ');
}

/** Items under what they have in common, in the order in which they come. */
export function grouped<Item>(items: readonly Item[], keyOf: (item: Item) => string): [string, Item[]][] {
  const groups = new Map<string, Item[]>();
  for (const item of items) groups.set(keyOf(item), [...(groups.get(keyOf(item)) ?? []), item]);
  return [...groups];
}

/** What a marker is called, with its labels unless it is called by them: `neck marker (C7)`. */
export function withLabels(called: string, labels: readonly string[]): string {
  const added = `(${labels.join(', ')})`;
  return called.includes(added) ? called : `${called} ${added}`;
}
