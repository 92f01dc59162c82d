import { makeTrial, type Workshop } from './make-trial.ts';
import type { PracticeTrial } from './practice-trial.ts';
import { type SeededDraw, seededDraw } from './seeded-draw.ts';

/**
 * Which trials of a session are clean: about half, one more or one fewer by chance, so that nobody can count on it, in a
 * drawn order.
 */
export function drawPlan(count: number, draw: SeededDraw): boolean[] {
  const clean = Math.floor(count / 2) + Math.floor(draw.unit() * 3) - 1;
  return draw.shuffled(Array.from({ length: count }, (_, at) => at < clean));
}

/**
 * A session of made trials. The same seed and weights make the same session.
 * @param weight how much a landmark is to be practised
 */
export function makeSession(
  shop: Workshop,
  seed: number,
  count: number,
  weight: (stem: string) => number,
): PracticeTrial[] {
  const draw = seededDraw(seed);
  return drawPlan(count, draw).map((isClean, at) => ({
    ...makeTrial(shop, draw, isClean ? null : weight),
    id: `made-${seed}-${at + 1}`,
  }));
}

/**
 * A session of stored trials: about half of them such that nothing is to be moved, the others the more likely the weaker
 * their landmarks. No trial comes twice; where there are too few of one sort, more of the other come.
 * @param stemOf landmark of a marker label
 */
export function drawStored(
  trials: readonly PracticeTrial[],
  seed: number,
  count: number,
  weight: (stem: string) => number,
  stemOf: (marker: string) => string,
): PracticeTrial[] {
  const draw = seededDraw(seed);
  const clean = draw.shuffled(trials.filter(({ key }) => key.expected.length === 0));
  const others = trials.filter(({ key }) => key.expected.length > 0);
  const weightOf = ({ key }: PracticeTrial): number =>
    Math.max(...key.expected.map(({ accepted }) => weight(stemOf(accepted[0].marker))));
  const off: PracticeTrial[] = [];
  while (off.length < others.length)
    off.push(
      draw.pick(
        others.filter((one) => !off.includes(one)),
        weightOf,
      ),
    );
  const wanted = drawPlan(Math.min(count, trials.length), draw);
  const session = wanted.map((isClean) => {
    const [first, second] = isClean ? [clean, off] : [off, clean];
    return (first.shift() ?? second.shift())!;
  });
  // Where one sort ran out its order would tell: the rest is of the other sort.
  return draw.shuffled(session);
}
