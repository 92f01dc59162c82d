import { NormsError } from '../../src/core/decision/norms-error.ts';
import { parseNorms } from '../../src/core/decision/parse-norms.ts';
import { MarkerSetError } from '../../src/core/marker-set/marker-set-error.ts';
import { parseMarkerSet } from '../../src/core/marker-set/parse-marker-set.ts';
import { parseSession, SessionError } from '../../src/core/session/parse-session.ts';
import type { CaseRandom } from './case-random.ts';
import { damagedJson } from './damage-json.ts';
import { distortedPerson } from './distort-person.ts';
import { judgePrinted } from './judge-output.ts';
import { seedTrials } from './seed-trials.ts';
import { checkAndPrint, sessionTexts, shippedSets } from './trial-case.ts';

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

/** A damaged marker set, session or norms, or several: refused in one clear sentence, or good for checking trials. */
export function tryWrittenFiles(random: CaseRandom): 'refused' | 'used' {
  const shipped = random.pick(shippedSets);
  const [damagesSet, damagesNorms] = [random.chance(0.5), random.chance(0.3)];
  // Norms are made for one very set, known by its hash: a damaged set keeps it, so that they may meet.
  const { sha256 } = shipped.set;
  const set = damagesSet ? parsed((text) => parseMarkerSet(text, sha256), random, [shipped.setText]) : shipped.set;
  const sessionDamage = damagesSet || damagesNorms ? 0.3 : 1;
  const session = parsed(parseSession, random, [...sessionTexts, largestSession], sessionDamage);
  if (set === null || session === null) return 'refused';
  const norms = parsed((text) => parseNorms(text, set), random, [shipped.normsText], damagesNorms ? 1 : 0);
  if (norms === null) return 'refused';
  checkAndPrint(random.pick(seedTrials), set, session, norms, random);
  if (random.chance(0.3)) checkAndPrint(distortedPerson(random), set, session, norms, random);
  return 'used';
}

function parsed<Parsed>(
  parse: (text: string) => Parsed,
  random: CaseRandom,
  sources: readonly string[],
  damageChance = 1,
): Parsed | null {
  const source = random.pick(sources);
  try {
    return parse(random.chance(damageChance) ? damagedJson(source, random) : source);
  } catch (error) {
    const isRefusal = [MarkerSetError, SessionError, NormsError].some((kind) => error instanceof kind);
    if (!(error instanceof Error) || !isRefusal) throw error;
    judgePrinted(error.message, 'the refusal');
    if (error.message.includes('\n') || error.message.length > 1000)
      throw new Error(`a refusal of ${error.message.length} characters`);
    return null;
  }
}
