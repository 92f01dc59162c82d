import { quoted } from '../schemas/show-value.ts';
import { type Draft, entriesOf, refuse } from './draft.ts';
import { idOn } from './expand-marker-set.ts';
import { mustKnow } from './known-names.ts';
import type { BodyDirection, MarkerDefinition, SegmentDefinition } from './marker-set.ts';

/** @throws MarkerSetError where a marker lies on no segment of its side, or cannot slide as it says */
export function checkMarkers(draft: Draft): void {
  const segments = new Map(draft.set.segments.map((segment) => [segment.name, segment]));
  for (const { pointer, item: marker } of entriesOf(draft, 'markers')) {
    const segment = segments.get(marker.segment) ?? segments.get(idOn(marker.side, marker.segment));
    if (segment === undefined) {
      if (segments.has(`${marker.segment}.right`)) {
        refuse(
          draft,
          `${pointer}/segment`,
          `found ${quoted(marker.segment)}, which has two sides, and the marker has none; make the marker "sided": true, or write "${marker.segment}.right" or "${marker.segment}.left"`,
        );
      }
      mustKnow(draft, `${pointer}/segment`, marker.segment, 'segment', new Set(segments.keys()));
      continue;
    }
    if (segment.side !== 'midline' && marker.side !== 'midline' && segment.side !== marker.side) {
      refuse(
        draft,
        `${pointer}/segment`,
        `found ${quoted(marker.segment)}, which is not on the ${marker.side}; write the segment without its side`,
      );
    }
    checkSlides(draft, pointer, marker, segment);
    checkWand(draft, pointer, marker, segment);
  }
}

const opposite = { forward: 'backward', up: 'down', outward: 'inward', left: 'right' } as const;

function checkSlides(draft: Draft, pointer: string, marker: MarkerDefinition, segment: SegmentDefinition): void {
  const named = marker.slides.map((slide) => wayOf(marker, slide));
  marker.slides.forEach((slide, index) => {
    const place = `${pointer}/slides/${index}`;
    if (slide === 'left' && marker.side !== 'midline')
      refuse(draft, place, 'found "left" on a sided marker, expected a way that both sides share; write "outward"');
    if (slide === 'outward' && marker.side === 'midline' && segment.side !== 'midline')
      refuse(draft, place, 'found "outward" on a marker without a side, on a segment of one side; write "left"');
    if (named.indexOf(named[index]!) !== index)
      refuse(draft, place, `found ${quoted(slide)}, which is the same way as the one before it; take one out`);
    const way = named[index]!;
    for (const word of [way, opposite[way]]) {
      if (marker.toward[word] !== undefined) continue;
      refuse(
        draft,
        `${pointer}/toward`,
        `found no words for "${word}", which the marker needs to slide ${slide}; write "${word}" with words that are said at the bedside`,
      );
    }
  });
}

/** On the midline outward means left. */
function wayOf(marker: MarkerDefinition, slide: BodyDirection): BodyDirection {
  return slide === 'outward' && marker.side === 'midline' ? 'left' : slide;
}

/** A wand turns about its bone, so there has to be a bone, and it is only turned. */
function checkWand(draft: Draft, pointer: string, marker: MarkerDefinition, segment: SegmentDefinition): void {
  if (marker.wandLengthMm === 0) return;
  if (segment.longAxis === null) {
    refuse(
      draft,
      `${pointer}/wandLengthMm`,
      `found a wand of ${marker.wandLengthMm} mm on segment ${quoted(marker.segment)}, which has no "longAxis" to turn about; give the segment one`,
    );
  }
  if (marker.slides.length !== 1 || marker.slides[0] !== 'forward') {
    refuse(
      draft,
      `${pointer}/slides`,
      'found another way to slide than "forward" for a wand, which is turned about its bone; write ["forward"]',
    );
  }
}
