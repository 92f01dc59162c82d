import type { C3dFile } from '../c3d/read-c3d.ts';
import type { MarkerSet } from '../marker-set/marker-set.ts';
import type { Problem } from '../problems/problem.ts';
import type { FrameRange } from './frame-range.ts';
import type { Vertical } from './vertical.ts';

export function nobodyStands(set: MarkerSet): Problem {
  const { low, high } = set.bodyAxes;
  return {
    code: 'vertical-unclear',
    severity: 'error',
    markers: [...low, ...high],
    message: `No standing person can be made out: none of ${low.join(', ')} or none of ${high.join(', ')} is visible, or they lie on one spot.`,
    remedy: 'Check that this is the standing trial, that it is labelled, and that the marker set fits its labels.',
  };
}

export function verticalUnclear({ axis, contradicts }: Vertical): Problem {
  return {
    code: 'vertical-unclear',
    severity: 'warning',
    markers: [],
    message:
      contradicts !== null
        ? `The file says that ${contradicts} is up, but the body stands along ${axis}; ${axis} was taken.`
        : `The body does not stand along any axis of the laboratory; ${axis} was taken as up.`,
    remedy: 'Check the axes of the laboratory and that the patient stands in this trial.',
  };
}

/** @param takenAs unit the positions were read in; null when none makes a body of plausible size */
export function unitImplausible(declared: string | null, bodyHeight: number, takenAs: string | null): Problem {
  const says =
    declared === null || declared.trim() === ''
      ? 'The file states no length unit'
      : `The file says "${printable(declared)}"`;
  const size = Number(bodyHeight.toPrecision(3));
  return {
    code: 'units-implausible',
    severity: takenAs === null ? 'error' : 'warning',
    markers: [],
    message:
      takenAs === null
        ? `${says}, and from feet to pelvis the body measures ${size}, which is no person in mm, cm, m or inches.`
        : `${says}; from feet to pelvis the body measures ${size}, so positions were read in ${takenAs}.`,
    remedy: 'Check the calibration and the unit that the capture software writes.',
  };
}

export function facingUnclear(set: MarkerSet): Problem {
  return {
    code: 'facing-unclear',
    severity: 'warning',
    markers: [...new Set(set.bodyAxes.forward.flatMap(({ from, to }) => [...from, ...to]))],
    message: `Feet, pelvis and shoulders do not agree on which way the patient faces (${set.bodyAxes.forward.map((line) => line.says).join('; ')}).`,
    remedy: 'Check the labels, and that the patient stands with feet and pelvis facing the same way.',
  };
}

export function facingUnknown(set: MarkerSet): Problem {
  return {
    code: 'facing-unclear',
    severity: 'error',
    markers: [...new Set(set.bodyAxes.forward.flatMap(({ from, to }) => [...from, ...to]))],
    message: `Nothing tells which way the patient faces: no line is complete (${set.bodyAxes.forward.map((line) => line.says).join('; ')}).`,
    remedy: 'Check the labels of these markers, and that the marker set fits this trial.',
  };
}

export function framesOutside(file: C3dFile, { first, last }: FrameRange): Problem {
  return {
    code: 'frames-outside',
    severity: 'error',
    markers: [],
    message: `Frames ${first} to ${last} were asked for, but the trial holds frames ${file.firstFrame} to ${file.firstFrame + file.frameCount - 1}.`,
    remedy: 'Ask for frames inside the trial.',
  };
}

export function framesTooFew(count: number): Problem {
  return {
    code: 'frames-too-few',
    severity: 'warning',
    markers: [],
    message: `Only ${count === 1 ? 'one frame was' : `${count} frames were`} judged: whether the patient stood still cannot be told from that.`,
    remedy: 'Capture a few seconds of quiet standing, or ask for more frames.',
  };
}

function printable(text: string): string {
  return text.replace(/[^\x20-\x7e]/g, '?').slice(0, 20);
}
