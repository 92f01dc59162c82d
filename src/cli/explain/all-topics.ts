import { foldLabel } from '../../core/marker-set/fold-label.ts';
import type { LoadedMarkerSet } from '../../core/marker-set/parse-marker-set.ts';
import { nearestName } from '../../core/schemas/nearest-name.ts';
import { markerTopics } from './marker-topics.ts';
import { kindTopics, tableTopics } from './page-topics.ts';
import { ruleTopics } from './rule-topics.ts';
import type { Topic } from './topic.ts';
import { wordMeanings } from './word-meanings.ts';

/** Everything that can be explained, with the rules and markers of one set. */
export async function allTopics(set: LoadedMarkerSet): Promise<Topic[]> {
  return [
    ...ruleTopics(set, await wordMeanings()),
    ...markerTopics(set),
    ...kindTopics(),
    ...(await tableTopics('problem', 'problems.md')),
    ...(await tableTopics('warning', 'c3d-warnings.md')),
    ...(await tableTopics('word', 'reading-a-report.md')),
    ...(await tableTopics('word', 'crosstalk.md')),
    ...(await tableTopics('word', 'live-page.md')),
  ];
}

/**
 * What a word stands for: written exactly so, failing that with other letter case, spaces or punctuation. More than one
 * where a marker set uses a word that the program has too.
 */
export function findTopics(topics: readonly Topic[], word: string): Topic[] {
  const namesOf = (topic: Topic): string[] => [topic.word, ...topic.also];
  const exact = topics.filter((topic) => namesOf(topic).includes(word));
  if (exact.length > 0) return exact;
  const folded = foldLabel(word);
  return folded === '' ? [] : topics.filter((topic) => namesOf(topic).some((name) => foldLabel(name) === folded));
}

const mostSuggestions = 3;

/** Known words that an unknown one may stand for: those it is part of, then those that are written alike. */
export function nearestWords(topics: readonly Topic[], word: string): string[] {
  const listed = topics.filter(({ listed }) => listed).map((topic) => topic.word);
  const lower = word.toLowerCase();
  const near = new Set(lower.length < 3 ? [] : listed.filter((known) => known.toLowerCase().includes(lower)));
  const rest = new Set(listed);
  while (near.size < mostSuggestions) {
    for (const known of near) rest.delete(known);
    const next = nearestName(word, rest);
    if (next === null) break;
    near.add(next);
  }
  return [...near].slice(0, mostSuggestions);
}
