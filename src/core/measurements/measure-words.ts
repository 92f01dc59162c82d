import type { Measure } from '../marker-set/measure.ts';
import type { ReadingName } from './sheet-finding.ts';

/** What each measurement is called, how it is taken, and what confirms it, as the sheet tells it. */
const texts: Readonly<Record<Measure, { readonly called: string; readonly taken: string; readonly confirm: string }>> =
  {
    mass: {
      called: 'body mass',
      taken: 'on level scales that show zero when empty, barefoot and in light clothes',
      confirm: 'The scales show zero again once the patient has stepped off.',
    },
    stature: {
      called: 'stature',
      taken:
        'barefoot and upright against the stadiometer, heels together, looking straight ahead; where that is not possible, record why',
      confirm: 'The headpiece lies level on the crown, and the heels are on the floor.',
    },
    pelvisWidth: {
      called: 'pelvis width',
      taken: 'with the pelvimeter between the two ASIS, its tips pressed onto the bone, read on the metric scale',
      confirm: 'Both tips sit on bone, and the scale that was read is the one in the unit written down.',
    },
    asisTrochanterDepth: {
      called: 'ASIS-trochanter depth',
      taken:
        'lying on the back: the vertical distance between the level of the ASIS and the level of the greater trochanter, on two rulers at right angles, never the slanted distance between the two',
      confirm: 'One ruler stands upright beside the trochanter, the other lies level on the ASIS and touches it.',
    },
    asisPsisDepth: {
      called: 'ASIS-PSIS depth',
      taken: 'with the pelvimeter from the middle between the two ASIS to the middle between the two PSIS',
      confirm: 'Both ends were palpated, and it is not the depth to the trochanter.',
    },
    kneeDiameter: {
      called: 'knee diameter',
      taken:
        'with the calliper across both femoral epicondyles at the height of the knee axis, jaws parallel, knee straight',
      confirm: 'Both jaws lie on bone at one height, and the scale that was read is the one in the unit written down.',
    },
    ankleDiameter: {
      called: 'ankle diameter',
      taken: 'with the calliper across the tips of both malleoli, jaws parallel to the line through them',
      confirm: 'Both jaws lie on bone, and the scale that was read is the one in the unit written down.',
    },
    legLength: {
      called: 'leg length',
      taken:
        'lying on the back, with the tape from the ASIS past the inner side of the knee to the medial malleolus; in two parts over the medial epicondyle where the knee does not extend',
      confirm: 'The tape is straight and starts at zero, and the pelvis lies level.',
    },
  };

/** "right knee diameter", "stature". */
export function nameReading({ measure, side }: ReadingName): string {
  return side === null ? texts[measure].called : `${side} ${texts[measure].called}`;
}

/** "knee diameter", whatever side. */
export function nameMeasure(measure: Measure): string {
  return texts[measure].called;
}

/** How it is taken; follows "again," or a name. */
export function howTaken(measure: Measure): string {
  return texts[measure].taken;
}

export function confirmReading(measure: Measure): string {
  return texts[measure].confirm;
}

/** "102 mm", "78.4 kg". */
export function sayValue(measure: Measure, value: number): string {
  return measure === 'mass' ? `${value.toFixed(1)} kg` : `${Math.round(value)} mm`;
}
