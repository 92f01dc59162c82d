/**
 * Numbers that are spread as independent normal ones, mean 0 and SD 1: always the same, so that whatever is computed from
 * them is. Box and Muller's method on a linear congruential sequence (1664525 and 1013904223 modulo 2^32, from memory).
 */
export function normalDraws(count: number): Float64Array {
  let state = 20_260_901;
  const next = (): number => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return (state + 0.5) / 4_294_967_296;
  };
  const draws = new Float64Array(count);
  for (let i = 0; i < count; i += 2) {
    const radius = Math.sqrt(-2 * Math.log(next()));
    const angle = 2 * Math.PI * next();
    draws[i] = radius * Math.cos(angle);
    if (i + 1 < count) draws[i + 1] = radius * Math.sin(angle);
  }
  return draws;
}
