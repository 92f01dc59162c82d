import { MarkerSetError } from '../../src/core/marker-set/marker-set-error.ts';
import { type LoadedMarkerSet, parseMarkerSet } from '../../src/core/marker-set/parse-marker-set.ts';
import { parseSession, SessionError } from '../../src/core/session/parse-session.ts';
import type { Session } from '../../src/core/session/session.ts';
import type { CaseRandom } from './case-random.ts';
import { damagedJson } from './damage-json.ts';
import { distortedPerson } from './distort-person.ts';
import { judgePrinted } from './judge-output.ts';
import { seedTrials } from './seed-trials.ts';
import { checkAndPrint, markerSetTexts, sessionTexts } from './trial-case.ts';

const hash = '0'.repeat(64);
const largestSession = JSON.stringify({
  format: 'setsquare-session/1',
  subject: { code: 'MR-1', ageYears: 120, sex: 'male' },
  measurements: ['pelvisWidth', 'asisTrochanterDepth', 'asisPsisDepth', 'stature', 'mass'].map((measure) => ({
    measure,
    value: 300,
    unit: measure === 'mass' ? 'kg' : 'mm',
  })),
  facts: {
    legLengthDifferenceMm: 40,
    kneeTurnDeg: { right: 10, left: -10 },
    tibialTorsionDeg: { right: 40, left: 10 },
    heelRaiseMm: { right: 30, left: 0 },
    heelSoleDifferenceMm: { right: 10, left: 10 },
    variants: [{ id: 'foot-in-supination', side: 'left' }, { id: 'unknown' }],
    contractures: [{ joint: 'knee', side: 'left', angleDeg: 30 }],
    block: { side: 'left', heightMm: 20 },
    prosthesis: ['right'],
    orthosis: ['left'],
    cannotStandStraight: true,
    supported: true,
  },
  accepted: [{ rule: 'thigh-wand-in-line.right', reason: 'scar', by: 'A1', on: '2024-02-30' }],
  confirmed: [{ marker: 'R_LE', by: 'A1', on: '2024-01-01' }],
});
const loadedSets = markerSetTexts.map((json) => parseMarkerSet(json, hash));

/** A damaged marker set and sometimes session: refused in one clear sentence, or good for checking trials. */
export function tryWrittenFiles(random: CaseRandom): 'refused' | 'used' {
  const setIsDamaged = random.chance(0.6);
  const set = setIsDamaged ? parsed(parseMarkerSetText, random, markerSetTexts) : random.pick(loadedSets);
  const session = parsed(parseSession, random, [...sessionTexts, largestSession], setIsDamaged ? 0.5 : 1);
  if (set === null || session === null) return 'refused';
  checkAndPrint(random.pick(seedTrials), set, session, random);
  if (random.chance(0.3)) checkAndPrint(distortedPerson(random), set, session, random);
  return 'used';
}

function parseMarkerSetText(text: string): LoadedMarkerSet {
  return parseMarkerSet(text, hash);
}

function parsed<Parsed extends LoadedMarkerSet | Session>(
  parse: (text: string) => Parsed,
  random: CaseRandom,
  sources: readonly string[],
  damageChance = 1,
): Parsed | null {
  const source = random.pick(sources);
  try {
    return parse(random.chance(damageChance) ? damagedJson(source, random) : source);
  } catch (error) {
    if (!(error instanceof MarkerSetError || error instanceof SessionError)) throw error;
    judgePrinted(error.message, 'the refusal');
    if (error.message.includes('\n') || error.message.length > 1000)
      throw new Error(`a refusal of ${error.message.length} characters`);
    return null;
  }
}
