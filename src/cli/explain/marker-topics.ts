import type { MarkerDefinition } from '../../core/marker-set/marker-set.ts';
import type { LoadedMarkerSet } from '../../core/marker-set/parse-marker-set.ts';
import { sentence } from '../../core/report/sentence.ts';
import type { TextPage } from '../../core/report/text-page.ts';
import { ruleStem } from '../../core/rules/expected-rules.ts';
import { grouped, type Topic, withLabels } from './topic.ts';

const presences: Readonly<Record<MarkerDefinition['presence'], string>> = {
  required: 'Required.',
  optional: 'Optional.',
  'static-only': 'Optional, in the static trial only.',
};

const placings: Readonly<Record<MarkerDefinition['placedBy'], string>> = {
  palpation: 'By palpation: it is never ordered off its bone.',
  eye: 'By eye: it may be moved.',
};

/** Each marker of the set, both sides in one, and each side by its label. Aliases find it too. */
export function markerTopics(set: LoadedMarkerSet): Topic[] {
  return grouped(set.markers, ({ stem }) => stem).flatMap(([stem, markers]) => {
    const topic = (word: string, explained: readonly MarkerDefinition[]): Topic => ({
      group: 'marker',
      word,
      // An alias stands for one side, where there are two.
      also: explained.length > 1 ? [] : explained[0]!.aliases,
      listed: word === stem,
      write: (page) => writeMarker(page, explained, set),
    });
    const sides = markers.filter(({ label }) => label !== stem).map((marker) => topic(marker.label, [marker]));
    return [topic(stem, markers), ...sides];
  });
}

function writeMarker(page: TextPage, markers: readonly MarkerDefinition[], set: LoadedMarkerSet): void {
  const marker = markers[0]!;
  const labels = markers.map(({ label }) => label);
  const { forward, up, outward } = marker.scatterMm;
  const rules = set.rules.filter(({ mayMove }) => mayMove.some((label) => labels.includes(label)));
  const name = markers.length > 1 || marker.side === 'midline' ? marker.called : `${marker.side} ${marker.called}`;
  page.paragraph(withLabels(name, labels), { ink: 'bold' });
  const aliases = markers.flatMap((one) => one.aliases);
  const lines: [string, string][] = [
    ['Marker of', `${set.name} ${set.version}`],
    ['Landmark', sentence(marker.landmark)],
    ['Find', marker.find],
    ['Confirm', marker.confirm],
    ['Precision', `${forward} mm forward, ${up} mm up, ${outward} mm outward (1 SD of placing it again).`],
    ['Source', sentence(marker.scatterSource)],
    ['Placed', placings[marker.placedBy]],
    ['Presence', presences[marker.presence]],
    ['Labels', aliases.length === 0 ? '' : `Also read as ${aliases.join(', ')}.`],
    [
      'Rules',
      rules.length === 0 ? '' : `Looked at when one of these fails: ${[...new Set(rules.map(ruleStem))].join(', ')}.`,
    ],
  ];
  for (const [lead, text] of lines) {
    if (text !== '') page.paragraph(text, { indent: 2, lead: `${lead}:`.padEnd(11) });
  }
}
