import type { PersonDescription } from '../sample-trials/person-description.ts';
import { standingPerson } from '../sample-trials/standing-person.ts';

const leg = {
  kneeTurnDeg: 4,
  tibialTorsionDeg: 26,
  footProgressionDeg: 9,
  kneeFlexionDeg: 3,
  thighExtraMm: 0,
  shankExtraMm: 0,
  malleolusHeightExtraMm: 0,
  footForwardMm: 0,
  footSupinationDeg: 0,
};
const adult: PersonDescription = {
  statureMm: 1750,
  sex: 'female',
  ageYears: 33,
  right: leg,
  left: leg,
  pelvicSlopeDeg: 12,
  trunkLeanDeg: -2,
  hipForwardMm: 58,
  sacralLeftMm: 0,
  markerRadiusMm: 7,
};

/** Pairs of markers between which the grey figure has a stroke. */
export const figureBones = [
  ['C7', 'R_ACR'],
  ['C7', 'L_ACR'],
  ['C7', 'S1'],
  ['R_ASIS', 'L_ASIS'],
  ...['R', 'L'].flatMap((side) => [
    [`${side}_ASIS`, 'S1'],
    [`${side}_ASIS`, `${side}_GT`],
    [`${side}_GT`, `${side}_LE`],
    [`${side}_LE`, `${side}_LM`],
    [`${side}_LM`, `${side}_HEEL`],
    [`${side}_HEEL`, `${side}_MET5`],
    [`${side}_MET5`, `${side}_LM`],
  ]),
] as const;

/** Where every marker sits on the adult of the drawings, as the protocol wants it. */
export const figureMarkers = standingPerson(adult).markers;
