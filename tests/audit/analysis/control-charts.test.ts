import { describe, expect, it } from 'vitest';
import { ewma, individualsChart } from '../../../src/audit/analysis/control-charts.ts';

const numbers = (text: string): number[] => text.split(' ').map(Number);

describe('a chart of individuals', () => {
  it('gives the worked example of the NIST/SEMATECH e-Handbook, 6.3.2.2 (read)', () => {
    const chart = individualsChart(numbers('49.6 47.6 49.9 51.3 47.8 51.2 52.6 52.4 53.6 52.1'));
    expect(chart.centre).toBeCloseTo(50.81, 10);
    expect(chart.meanRange).toBeCloseTo(1.8778, 4);
    expect(chart.upper).toBeCloseTo(55.8041, 4);
    expect(chart.lower).toBeCloseTo(45.8159, 4);
    expect(chart.rangeUpper).toBeCloseTo(6.1347, 4);
  });

  it('gives the tyre diameters of a statistics manual (SAS/QC 9.3, MACONTROL procedure; read)', () => {
    // https://support.sas.com/documentation/cdl/en/qcug/63964/HTML/default/qcug_macontrol_a0000000363.htm
    const chart = individualsChart(
      numbers(
        '24.05 23.99 23.95 23.93 23.97 24.02 24.06 24.10 23.98 24.03 23.91 24.06 24.06 23.96 23.98 24.06 24.01 24.00 23.93 23.92 24.09 24.11 24.05 23.98 23.98 24.06 24.02 24.06 23.97 23.96',
      ),
    );
    expect(chart.centre).toBeCloseTo(24.0083, 4);
    expect(chart.meanRange).toBeCloseTo(0.056897, 6);
    expect(chart.sd).toBeCloseTo(0.050423, 4);
    expect(chart.lower).toBeCloseTo(23.8571, 3);
    expect(chart.upper).toBeCloseTo(24.1596, 3);
    expect(chart.rangeUpper).toBeCloseTo(0.18585, 4);
  });
});

describe('an exponentially weighted moving average', () => {
  it('gives the worked example of the NIST/SEMATECH e-Handbook, 6.3.2.4 (read)', () => {
    const values = numbers(
      '52.0 47.0 53.0 49.3 50.1 47.0 51.0 50.1 51.2 50.5 49.6 47.6 49.9 51.3 47.8 51.2 52.6 52.4 53.6 52.1',
    );
    const points = ewma(values, 50, 2.0539, 0.3);
    expect(points.map(({ value }) => value.toFixed(2))).toEqual(
      '50.60 49.52 50.56 50.18 50.16 49.21 49.75 49.85 50.26 50.33 50.11 49.36 49.52 50.05 49.38 49.92 50.73 51.23 51.94 51.99'.split(
        ' ',
      ),
    );
    expect(points.at(-1)!.upper).toBeCloseTo(52.5884, 4);
    expect(points.at(-1)!.lower).toBeCloseTo(47.41157, 4);
    expect(points.every(({ value, lower, upper }) => value > lower && value < upper)).toBe(true);
  });

  it('opens its limits from the first value on: k sd lambda, then wider', () => {
    const [first, second] = ewma([0, 0], 0, 1, 0.2);
    expect(first!.upper).toBeCloseTo(0.6, 12);
    expect(second!.upper).toBeCloseTo(3 * Math.sqrt((0.2 / 1.8) * (1 - 0.8 ** 4)), 12);
  });
});
