import { describe, expect, it } from 'vitest';
import { type Change, type Loose, placeOf, refusalOf } from './changed-set.ts';

/** What is planted in a shipped set, the place that is named (entries by name, for their index), and what is said of it. */
const faults: readonly [string, Change, string, string][] = [
  [
    'a segment that is not there',
    ({ marker }) => {
      marker('S1').segment = 'pelvic';
    },
    '/markers/S1/segment',
    ' (marker "S1"): found "pelvic", expected a segment of this set; perhaps "pelvis" is meant',
  ],
  [
    'a sided segment for a marker without a side',
    ({ marker }) => {
      marker('S1').segment = 'thigh';
    },
    '/markers/S1/segment',
    ' (marker "S1"): found "thigh", which has two sides, and the marker has none; make the marker "sided": true, or write "thigh.right" or "thigh.left"',
  ],
  [
    'a segment of the right for a marker of both sides',
    ({ marker }) => {
      marker('GT').segment = 'thigh.right';
    },
    '/markers/GT/segment',
    ' (marker "GT"): found "thigh.right", which is not on the left; write the segment without its side',
  ],
  [
    'left for a sided marker',
    ({ marker }) => {
      marker('GT').slides = ['left'];
    },
    '/markers/GT/slides/0',
    ' (marker "GT"): found "left" on a sided marker, expected a way that both sides share; write "outward"',
  ],
  [
    'outward for a marker without a side on a segment of one',
    ({ marker }) => {
      Object.assign(marker('S1'), { segment: 'thigh.right' });
    },
    '/markers/S1/slides/0',
    ' (marker "S1"): found "outward" on a marker without a side, on a segment of one side; write "left"',
  ],
  [
    'outward and left on the midline, which are one way',
    ({ marker }) => {
      marker('S1').slides = ['outward', 'left'];
    },
    '/markers/S1/slides/1',
    ' (marker "S1"): found "left", which is the same way as the one before it; take one out',
  ],
  [
    'no words for the way back',
    ({ marker }) => {
      delete marker('HEEL').toward.down;
    },
    '/markers/HEEL/toward',
    ' (marker "HEEL"): found no words for "down", which the marker needs to slide up; write "down" with words that are said at the bedside',
  ],
  [
    'no words for right on the midline',
    ({ marker }) => {
      delete marker('S1').toward.right;
    },
    '/markers/S1/toward',
    ' (marker "S1"): found no words for "right", which the marker needs to slide outward; write "right" with words that are said at the bedside',
  ],
  [
    'a wand on a segment without a long axis',
    ({ set }) => {
      delete set.segments.find((segment: Loose) => segment.name === 'thigh').longAxis;
    },
    '/markers/TW/wandLengthMm',
    ' (marker "TW"): found a wand of 75 mm on segment "thigh", which has no "longAxis" to turn about; give the segment one',
  ],
  [
    'a wand that slides up',
    ({ marker }) => {
      Object.assign(marker('TW'), {
        slides: ['forward', 'up'],
        toward: { ...marker('TW').toward, up: 'to the hip', down: 'to the knee' },
      });
    },
    '/markers/TW/slides',
    ' (marker "TW"): found another way to slide than "forward" for a wand, which is turned about its bone; write ["forward"]',
  ],
];

describe('parseMarkerSet refuses markers that lie nowhere or cannot slide', () => {
  it.each(faults)('%s', (_, plant, pointer, trouble) => {
    const place = placeOf(pointer);
    expect(refusalOf(plant)).toEqual({ pointer: place, message: `marker set, at ${place}${trouble}.` });
  });
});
