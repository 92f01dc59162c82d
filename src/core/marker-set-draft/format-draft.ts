import { counted } from '../report/counted.ts';
import { type TextOptions, TextPage } from '../report/text-page.ts';
import type { DraftedSet, DraftedTrajectory } from './draft-from-trial.ts';

/** Under this a name is a guess that a person has to confirm first. */
const sure = 0.9;

/** What each trajectory was taken for, what to confirm, and what to do next. */
export function formatDraft(
  { trajectories, after, markerSet }: DraftedSet,
  written: string | null,
  options: TextOptions,
): string {
  const page = new TextPage(options);
  const named = trajectories.filter(({ marker }) => marker !== null);
  page.paragraph(
    `${named.length} of ${counted(trajectories.length, 'trajectory', 'trajectories')} taken for a marker, after ${after}.`,
    {
      ink: 'bold',
    },
  );
  page.blank();
  page.table([
    ['', 'label', 'sure', ''],
    ...trajectories.map((one) => [sayTaken(one), nameOf(one), `${Math.round(100 * one.confidence)} %`, mark(one)]),
  ]);
  const doubtful = trajectories.filter(isDoubtful);
  const others = trajectories.filter(({ marker }) => marker === null);
  const unlabelled = named.filter(({ label }) => label === '');
  page.heading('To confirm');
  for (const one of doubtful) {
    page.paragraph(`${nameOf(one)}: ${sayTaken(one)}, or ${one.rival ?? 'no landmark at all'}?`, {
      indent: 2,
      lead: '- ',
    });
  }
  for (const line of [
    'Every marker, on the person or in the protocol: the draft knows only where the trajectories lie.',
    ...(unlabelled.length > 0
      ? ['Trajectories without a label cannot be found again: label them in the file, then draft once more.']
      : []),
    ...(others.length > 0
      ? [
          `${others.map(nameOf).join(', ')}: no marker of ${after}, so left out of the draft; a marker of your own can be added to the file.`,
        ]
      : []),
    'Diameters, base thickness and wand lengths: they are those of the set it was drafted after.',
    'Limits: they come from published figures and open trials; replace them by your own as they grow.',
  ]) {
    page.paragraph(line, { indent: 2, lead: '- ' });
  }
  page.blank();
  page.paragraph(
    written === null
      ? 'Nothing was written; --output our-lab.json writes the draft.'
      : `${written}: ${markerSet.markers.length} entries for markers, ${markerSet.rules.length} for rules, where one entry may stand for right and left. Next: setsquare marker-set check ${written}, then setsquare check TRIAL.c3d --marker-set ${written}.`,
  );
  return page.toString();
}

function isDoubtful({ confidence }: DraftedTrajectory): boolean {
  return confidence < sure;
}

function sayTaken({ landmark, marker }: DraftedTrajectory): string {
  if (landmark === null) return 'no landmark';
  return marker === null ? `${landmark} (no marker of the set)` : landmark;
}

function nameOf({ label, point }: DraftedTrajectory): string {
  return label === '' ? `point ${point}` : label;
}

function mark(one: DraftedTrajectory): string {
  return isDoubtful(one) ? 'confirm' : '';
}
