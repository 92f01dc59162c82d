import { writeC3d } from '../c3d/write-c3d.ts';
import type { MarkerPlaces } from './make-person.ts';
import type { SeededDraw } from './seeded-draw.ts';

const rateHz = 50;
const frameCount = 75;
/** Sway at the height of a metre, which grows with height; mm. */
const swayMm = 1.2;

/** A short C3D file of somebody who stands there, somewhere in the room and facing anywhere. */
export function recordStill(places: MarkerPlaces, draw: SeededDraw): Uint8Array {
  const heading = 2 * Math.PI * draw.unit();
  const [cos, sin] = [Math.cos(heading), Math.sin(heading)];
  const [x, y] = [draw.between(-800, 800), draw.between(-800, 800)];
  const [phaseForward, phaseLeft] = [2 * Math.PI * draw.unit(), 2 * Math.PI * draw.unit()];
  const labels = [...places.keys()];
  const values = new Float32Array(frameCount * labels.length * 4);
  for (let frame = 0; frame < frameCount; frame++) {
    const turn = (2 * Math.PI * frame) / frameCount;
    labels.forEach((label, point) => {
      const [forward, left, up] = places.get(label)!;
      const sway = (swayMm * up) / 1000;
      const ahead = forward + sway * Math.sin(turn + phaseForward);
      const aside = left + sway * Math.sin(turn + phaseLeft);
      const at = (frame * labels.length + point) * 4;
      values.set([x + ahead * cos - aside * sin, y + ahead * sin + aside * cos, up, 0], at);
    });
  }
  return writeC3d({
    rateHz,
    units: 'mm',
    labels,
    pointCount: labels.length,
    frameCount,
    values,
    screen: { x: '+X', y: '+Z' },
  });
}
