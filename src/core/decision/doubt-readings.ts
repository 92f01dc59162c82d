import { nameReading, sayValue } from '../measurements/measure-words.ts';
import { type ReadingName, repeatOf, type SheetFinding, sameReading } from '../measurements/sheet-finding.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import type { ComparedRow, DoubtfulReading, SheetComparison } from '../sheet-against-trial/sheet-comparison.ts';
import { measureSensitivity } from './sensitivity.ts';
import type { WeighedMarkers } from './weigh-markers.ts';

/** One hand measurement beside what the markers foretell. */
export interface ReadingAgainstMarkers {
  readonly title: string;
  readonly reading: DoubtfulReading;
  readonly markers: readonly string[];
  /** What the markers let expect that was read, mm, and its spread where both are right, 1 SD. */
  readonly foretoldMm: number;
  readonly sdMm: number;
  readonly agrees: boolean;
}

/** Beyond so many standard deviations one or the other is doubted: one in eighty of those that are right. */
const doubtedBeyondSd = 2.5;
/** From here on one is named, and not only taken again because that costs least. */
const named = 0.5;
/** Below it a reading is believed. */
const believed = 0.1;
/** A marker that is this likely off, and has a step of its own, answers for the reading too. */
const answersFor = 0.4;
/** Beside the usual size for this patient: nearer than this speaks for the reading, further against it. */
const usualWithinSd = 1;
const source = 'spread of readings against markers as the marker set states it';

/** Sets each reading beside its markers. @returns one for each row that has markers, in their order */
export function readingsAgainstMarkers(body: StandingBody, sheet: SheetComparison): ReadingAgainstMarkers[] {
  const rows = sheet.rows.slice(0, sheet.trialRows);
  const { followed } = measureSensitivity(body, [], rows);
  return rows.map((row, index): ReadingAgainstMarkers => {
    const scatter = followed.reduce((sum, { slopes, scatterMm }) => sum + (slopes[index]! * scatterMm) ** 2, 0);
    const sdMm = Math.sqrt(sheet.covariance[index * sheet.rows.length + index]! + scatter);
    const residual = row.residual(body.positions);
    const reading = sheet.readings[row.reading]!;
    return {
      title: row.title,
      reading,
      markers: row.markers,
      foretoldMm: reading.mm + residual,
      sdMm,
      agrees: Math.abs(residual) <= doubtedBeyondSd * sdMm,
    };
  });
}

/** Whether anything about the sheet is left open that the weighing could settle. */
export function needsWeighing(compared: readonly ReadingAgainstMarkers[], findings: readonly SheetFinding[]): boolean {
  return compared.some(({ agrees }) => !agrees) || findings.some(isOpen);
}

/**
 * What is found of the hand measurements once markers and readings have been weighed together: which reading is to be
 * taken again, and which is right and the marker is not. Findings of the sheet by itself that leave open which of two
 * readings is wrong get the more doubtful one first.
 *
 * @param hasStep markers that a failing rule asks to look at anyway
 * @param isConfirmed readings that were taken again and found right
 * @param weighed null where there are no norms: then the reading is taken again, since that costs least
 */
export function doubtReadings(
  body: StandingBody,
  sheet: SheetComparison,
  compared: readonly ReadingAgainstMarkers[],
  findings: readonly SheetFinding[],
  weighed: WeighedMarkers | null,
  hasStep: ReadonlySet<string>,
  isConfirmed: (reading: ReadingName) => boolean,
): SheetFinding[] {
  const probabilityOf = (reading: ReadingName): number | null => {
    const index = sheet.readings.findIndex((one) => sameReading(one, reading));
    return index < 0 || weighed === null ? null : weighed.probabilityOfReading(index);
  };
  const all = findings.map((finding) =>
    isOpen(finding) ? weighOpen(mostDoubtfulFirst(finding, probabilityOf), compared, probabilityOf) : finding,
  );
  const departing = compared.filter(({ agrees }) => !agrees);
  if (isOfAnother(compared, departing)) return [...all, askWhose(departing)];
  const told = all.filter(isOpen).map(({ readings }) => readings[0]!);
  for (const one of worstOfEach(departing)) {
    if (told.some((reading) => sameReading(reading, one.reading))) continue;
    const probability = probabilityOf(one.reading);
    const marker = likeliestMarker(one, weighed);
    const says = [
      sayForetold(one),
      sayUsual(one, sheet),
      sayDoubted(one, probability, marker, body, isConfirmed(one.reading)),
    ];
    const found = repeatOf('trial-against-sheet', [one.reading], says.filter(Boolean).join(' '), source);
    const answered = marker !== null && hasStep.has(marker.label) && marker.probability >= answersFor;
    const isNote = answered && (probability ?? 1) < named;
    all.push({ ...found, probability, status: isNote ? 'note' : found.status });
  }
  return all;
}

/** So many measures that all depart the same way are hardly as many slips of the hand. */
const fewestOfAnother = 3;

/** Whether the sheet looks like that of a larger or smaller person: a file that was taken for another is an easy slip. */
function isOfAnother(compared: readonly ReadingAgainstMarkers[], departing: readonly ReadingAgainstMarkers[]): boolean {
  const measures = new Set(departing.map(({ reading }) => reading.measure));
  const ways = new Set(departing.map(({ reading, foretoldMm }) => reading.mm > foretoldMm));
  return measures.size >= fewestOfAnother && ways.size === 1 && 2 * departing.length >= compared.length;
}

function askWhose(departing: readonly ReadingAgainstMarkers[]): SheetFinding {
  const worst = worstOfEach(departing);
  const [first] = worst;
  const { reading, foretoldMm } = first!;
  const larger = reading.mm > foretoldMm ? 'larger' : 'smaller';
  const says = `${worst.length} readings are all ${larger} than the markers let expect, first the ${nameReading(reading)}: ${sayValue(reading.measure, reading.mm)} against ${sayValue(reading.measure, foretoldMm)}. It may be the sheet of another patient.`;
  return repeatOf(
    'another-sheet',
    worst.map(({ reading: { measure, side } }) => ({ measure, side })),
    says,
    source,
  );
}

/** Two readings disagree, and the sheet by itself does not tell which is wrong. */
function isOpen({ status, readings, check }: SheetFinding): boolean {
  return status === 'repeat' && readings.length > 1 && check !== 'exchanged';
}

function mostDoubtfulFirst(
  finding: SheetFinding,
  probabilityOf: (reading: ReadingName) => number | null,
): SheetFinding {
  const weighed = finding.readings.map((reading) => ({ reading, probability: probabilityOf(reading) }));
  if (weighed.some(({ probability }) => probability === null)) return finding;
  const readings = weighed.toSorted((a, b) => b.probability! - a.probability!);
  return { ...finding, readings: readings.map(({ reading }) => reading), probability: readings[0]!.probability };
}

/** What the markers say of it; where they go with every reading, the finding asks for nothing. */
function weighOpen(
  finding: SheetFinding,
  compared: readonly ReadingAgainstMarkers[],
  probabilityOf: (reading: ReadingName) => number | null,
): SheetFinding {
  const probabilities = finding.readings.map((reading) => probabilityOf(reading) ?? 1);
  const first = compared.find(({ reading }) => sameReading(reading, finding.readings[0]!));
  const says = first === undefined ? finding.says : `${finding.says} ${sayExpected(first)}`;
  if (first?.agrees !== true || Math.max(...probabilities) >= believed) return { ...finding, says };
  return { ...finding, status: 'note', says: `${says} That goes with the readings, so nothing is asked for.` };
}

/** One for each reading: where it departs furthest. */
function worstOfEach(departing: readonly ReadingAgainstMarkers[]): ReadingAgainstMarkers[] {
  const departure = ({ foretoldMm, reading, sdMm }: ReadingAgainstMarkers): number =>
    Math.abs(foretoldMm - reading.mm) / sdMm;
  const worst = new Map<DoubtfulReading, ReadingAgainstMarkers>();
  for (const one of departing) {
    const held = worst.get(one.reading);
    if (held === undefined || departure(one) > departure(held)) worst.set(one.reading, one);
  }
  return [...worst.values()].sort((a, b) => departure(b) - departure(a));
}

interface LikelyMarker {
  readonly label: string;
  readonly probability: number;
}

function likeliestMarker({ markers }: ReadingAgainstMarkers, weighed: WeighedMarkers | null): LikelyMarker | null {
  if (weighed === null) return null;
  const all = markers.map((label) => ({ label, probability: weighed.probability(label) }));
  return all.sort((a, b) => b.probability - a.probability)[0] ?? null;
}

/** The same after the reading was told already. */
function sayExpected({ reading, markers, foretoldMm, sdMm }: ReadingAgainstMarkers): string {
  const expected = `${sayValue(reading.measure, foretoldMm)}, give or take ${sayValue(reading.measure, sdMm)}`;
  return `By ${list(markers)} the ${nameReading(reading)} would be ${expected}.`;
}

function sayForetold({ reading, markers, foretoldMm, sdMm }: ReadingAgainstMarkers): string {
  const { measure } = reading;
  return `The ${nameReading(reading)} was read as ${sayValue(measure, reading.mm)}; from ${list(markers)} one would expect ${sayValue(measure, foretoldMm)}, give or take ${sayValue(measure, sdMm)}.`;
}

/** What the patient's size says beside it. */
function sayUsual({ reading, foretoldMm }: ReadingAgainstMarkers, sheet: SheetComparison): string {
  // Statures differ so much that the usual one says nothing.
  if (reading.measure === 'stature') return '';
  const index = sheet.rows.findIndex((row, at) => at >= sheet.trialRows && isSizeOf(row, reading, sheet));
  if (index < 0) return '';
  const residual = sheet.rows[index]!.residual(new Float64Array());
  const sd = Math.sqrt(sheet.covariance[index * sheet.rows.length + index]!);
  if (Math.abs(residual) < usualWithinSd * sd) return 'For this patient the reading would be usual.';
  const isAlike = residual < 0 === reading.mm < foretoldMm;
  return isAlike ? `About ${sayValue(reading.measure, reading.mm - residual)} would be usual for this patient.` : '';
}

function isSizeOf(row: ComparedRow, reading: DoubtfulReading, sheet: SheetComparison): boolean {
  return row.id.startsWith('size ') && sheet.readings[row.reading] === reading;
}

function sayDoubted(
  { markers }: ReadingAgainstMarkers,
  probability: number | null,
  marker: LikelyMarker | null,
  body: StandingBody,
  isConfirmed: boolean,
): string {
  if (isConfirmed)
    return `The reading was found right, so ${list(markers)} may be off ${markers.length === 1 ? 'its bone' : 'their bones'}.`;
  const palpate = `If it reads the same, palpate ${list(markers)}.`;
  if (probability !== null && probability >= named) return `The reading is doubted more than the markers. ${palpate}`;
  if (marker !== null && marker.probability >= named && marker.probability > (probability ?? 0)) {
    const { called } = body.set.markers.find(({ label }) => label === marker.label)!;
    return `The ${called} (${marker.label}) is doubted more than the reading: look there first.`;
  }
  return `Which of the two is wrong cannot be told from here. ${palpate}`;
}

function list(labels: readonly string[]): string {
  return labels.length < 2 ? labels.join('') : `${labels.slice(0, -1).join(', ')} and ${labels.at(-1)}`;
}
