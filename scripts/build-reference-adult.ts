// Writes the adult on whom the blind spots of a marker set are computed where no trial is given.
//
//   npx tsx scripts/build-reference-adult.ts > shared/reference-adult.json
import { symmetricAdult } from '../tests/support/ordinary-people.ts';

const round = (value: number): number => Math.round(value * 100) / 100 + 0;
const positions = [...symmetricAdult()].map(([label, position]) => [label, position.map(round)]);
const adult = {
  description:
    'An average adult of 1.70 m, right and left alike, every marker where the protocol has it. Lab axes: X forward, Y left, Z up, mm. Written by scripts/build-reference-adult.ts.',
  positions: Object.fromEntries(positions),
};
process.stdout.write(`${JSON.stringify(adult, null, 2)}\n`);
