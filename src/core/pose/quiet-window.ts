import { median } from '../geometry/statistics.ts';
import type { MotionBlocks } from './motion-blocks.ts';

/** A run of frames, counted from 0 in the order stored, and how much the body sways in it. */
export interface QuietWindow {
  readonly first: number;
  readonly count: number;
  /** Median over the markers of the standard deviation of their positions (three-dimensional), in file units. */
  readonly sway: number;
}

const shortestSeconds = 1;
const longestSeconds = 5;
/** A marker seen in this share of the frames counts as seen throughout. */
const hardlyHidden = 0.9;

/**
 * The quietest second in which most markers are visible, lengthened up to five seconds while the body stays about as
 * still: people sway, step in, and bend their knees before they stand. `quietSway` (file units) is a sway up to
 * which a longer window is always preferred.
 */
export function findQuietWindow(
  motion: MotionBlocks,
  frameCount: number,
  rateHz: number,
  quietSway: number,
): QuietWindow {
  const perSecond = rateHz / motion.framesPerBlock;
  const shortest = Math.min(motion.blocks, Math.max(1, Math.round(shortestSeconds * perSecond)));
  const longest = Math.min(motion.blocks, Math.max(shortest, Math.round(longestSeconds * perSecond)));
  let best = quietest(motion, frameCount, shortest);
  const allowed = Math.max(quietSway, best.sway * 1.25);
  for (let length = shortest + 1; length <= longest; length++) {
    const longer = quietest(motion, frameCount, length);
    if (longer.visible >= best.visible && longer.sway <= allowed) best = longer;
  }
  const first = best.block * motion.framesPerBlock;
  return { first, count: Math.min(frameCount - first, best.length * motion.framesPerBlock), sway: best.sway };
}

interface Candidate {
  block: number;
  length: number;
  /** Two points for each marker that is hardly ever hidden, one for each that is seen in half the frames. */
  visible: number;
  sway: number;
}

/** The best window of a length: most markers visible, then least sway; the earliest of equals. */
function quietest(motion: MotionBlocks, frameCount: number, length: number): Candidate {
  const { markers, blocks, framesPerBlock } = motion;
  const n = new Float64Array(markers);
  const s = new Float64Array(markers * 3);
  const q = new Float64Array(markers);
  const sds = new Float64Array(markers);
  let best: Candidate | null = null;
  for (let end = 0; end < blocks; end++) {
    slide(motion, end, 1, n, s, q);
    if (end >= length) slide(motion, end - length, -1, n, s, q);
    if (end < length - 1) continue;
    const first = (end - length + 1) * framesPerBlock;
    const frames = Math.min(frameCount - first, length * framesPerBlock);
    let visible = 0;
    let seen = 0;
    for (let marker = 0; marker < markers; marker++) {
      const count = n[marker]!;
      if (count === 0) continue;
      const share = count / frames;
      visible += share >= hardlyHidden ? 2 : share >= 0.5 ? 1 : 0;
      if (count > 1) sds[seen++] = deviation(count, s, q, marker);
    }
    const sway = seen === 0 ? 0 : median(sds, seen);
    if (best === null || visible > best.visible || (visible === best.visible && sway < best.sway - 1e-9)) {
      best = { block: end - length + 1, length, visible, sway };
    }
  }
  return best ?? { block: 0, length: blocks, visible: 0, sway: 0 };
}

function slide(
  motion: MotionBlocks,
  block: number,
  sign: number,
  n: Float64Array,
  s: Float64Array,
  q: Float64Array,
): void {
  const { markers } = motion;
  for (let marker = 0; marker < markers; marker++) {
    const slot = block * markers + marker;
    n[marker]! += sign * motion.counts[slot]!;
    for (let axis = 0; axis < 3; axis++) s[marker * 3 + axis]! += sign * motion.sums[slot * 3 + axis]!;
    q[marker]! += sign * motion.squares[slot]!;
  }
}

function deviation(count: number, s: Float64Array, q: Float64Array, marker: number): number {
  let about = q[marker]!;
  for (let axis = 0; axis < 3; axis++) about -= s[marker * 3 + axis]! ** 2 / count;
  return Math.sqrt(Math.max(0, about) / (count - 1));
}
