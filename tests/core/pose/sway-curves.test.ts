import { describe, expect, it } from 'vitest';
import { writeC3d } from '../../../src/core/c3d/write-c3d.ts';
import { symmetricAdult } from '../../support/ordinary-people.ts';
import { checkBytes, stillContents } from '../../support/still-trial.ts';

/** A person who stands still but for what `moves` adds (lab forward, left; mm) to some labels in some frames. */
function filmed(frames: number, moves: (label: string, frame: number) => readonly [number, number], headingDeg = 0) {
  const contents = stillContents(symmetricAdult(), { frames, headingDeg });
  const values = Float32Array.from(contents.values);
  contents.labels.forEach((label, point) => {
    for (let frame = 0; frame < frames; frame++) {
      const [forward, left] = moves(label, frame);
      values[(frame * contents.labels.length + point) * 4]! += forward;
      values[(frame * contents.labels.length + point) * 4 + 1]! += left;
    }
  });
  return { ...contents, values };
}

const isFoot = (label: string) => /HEEL|MET5|LM/.test(label);

describe('swayCurves', () => {
  it('shows a step that only the feet take, in its frames, in millimetres of the patient', () => {
    const contents = filmed(400, (label, frame) => (isFoot(label) && frame < 100 ? [-14, 3] : [0, 0]));
    const { sway } = checkBytes(writeC3d(contents));
    expect(sway!.frames).toHaveLength(100);
    expect([sway!.frames[0], sway!.frames.at(-1)]).toEqual([1, 400]);
    sway!.frames.forEach((frame, sample) => {
      expect(sway!.feet.forwardMm[sample]).toBeCloseTo(frame <= 100 ? -14 : 0, 3);
      expect(sway!.feet.leftMm[sample]).toBeCloseTo(frame <= 100 ? 3 : 0, 3);
      expect(sway!.pelvis.forwardMm[sample]).toBeCloseTo(0, 3);
    });
  });

  it('turns with the patient: forward in the lab is to the right of a patient who faces left', () => {
    const moves = (_: string, frame: number): [number, number] => (frame < 100 ? [10, 0] : [0, 0]);
    const { sway } = checkBytes(writeC3d(filmed(400, moves, 90)));
    expect(sway!.pelvis.forwardMm[0]).toBeCloseTo(0, 3);
    expect(sway!.pelvis.leftMm[0]).toBeCloseTo(-10, 3);
  });

  it('has a sample for each frame of a short trial, and null where nothing is seen', () => {
    const contents = stillContents(symmetricAdult(), { frames: 3 });
    contents.labels.forEach((label, point) => {
      if (isFoot(label)) contents.values[(contents.labels.length + point) * 4 + 3] = -1;
    });
    const { sway } = checkBytes(writeC3d(contents));
    expect(sway!.frames).toEqual([1, 2, 3]);
    expect(sway!.feet.forwardMm[1]).toBeNull();
    expect(sway!.feet.forwardMm[2]).toBeCloseTo(0, 3);
  });
});
