/**
 * Technical error of measurement: the standard deviation of repeated readings of the same thing, over all of them,
 * sqrt(sum of squared differences from each mean / sum of (readings - 1)). For pairs this is sqrt(sum d^2 / 2n); with as
 * many readings of each it is the formula for several observers of Ulijaszek and Kerr 1999, Br J Nutr 82:165-177.
 * @param rows one row of readings for each thing measured
 * @returns null where nothing was read twice
 */
export function technicalError(rows: readonly (readonly number[])[]): number | null {
  let squares = 0;
  let freedom = 0;
  for (const readings of rows) {
    const mean = readings.reduce((sum, one) => sum + one, 0) / readings.length;
    for (const reading of readings) squares += (reading - mean) ** 2;
    freedom += readings.length - 1;
  }
  return freedom > 0 ? Math.sqrt(squares / freedom) : null;
}
