import { C3dError, type C3dFile, readC3d } from '../c3d/read-c3d.ts';
import { calibrateLowerBody, type LowerBodyModel, readLeg } from '../gait-model/lower-body-model.ts';
import { chooseCarriers } from '../labels/choose-carriers.ts';
import { matchLabels } from '../labels/match-labels.ts';
import type { MarkerSet } from '../marker-set/marker-set.ts';
import { millimetresPer } from '../pose/length-unit.ts';
import type { Report } from '../report/report.ts';
import type { Side } from '../rule-kinds/rule-kind.ts';
import type { Session } from '../session/session.ts';
import type { NobodyStanding, StoodTrial } from '../stand-trial.ts';
import { type Crosstalk, isUsable, type KneeCrosstalk, type KneeNotUsable } from './crosstalk.ts';
import { judgeKnee } from './judge-knee.ts';
import { type KneeCurve, kneeCurves } from './knee-curve.ts';
import { staticTurn } from './static-turn.ts';

/**
 * Checks the knee axes by a movement: from a knee bend or a walking trial with the same markers as the static trial,
 * varus-valgus against flexion, the turn of the marked axis that would explain it, and whether the static trial says
 * the same. Pure, and nothing is thrown for what a file holds.
 *
 * @param bytes the C3D file of the movement
 * @param stood the static trial, as standTrial reads it
 * @param report of the static trial, as checkTrial gives it
 */
export function checkCrosstalk(
  bytes: Uint8Array,
  stood: StoodTrial | NobodyStanding,
  report: Report,
  set: MarkerSet,
  session: Session,
): Crosstalk {
  if (!('body' in stood)) return notUsable(`The static trial cannot be used: ${stood.problems[0]?.message ?? ''}`);
  if (set.model === null)
    return notUsable(`The marker set ${set.name} says nothing of a model of the legs (its "model").`);
  if (stood.swaps.length > 0) {
    return notUsable('Labels are exchanged in the static trial: put those right in both trials first.');
  }
  const opened = open(bytes);
  if (typeof opened === 'string') return notUsable(`The movement cannot be read: ${opened}`);

  const standing = stood.body.positions.slice(0, set.markers.length * 3);
  const model = calibrateLowerBody(set, session, standing, [0, 0, 1])!;
  const { points } = chooseCarriers(opened, matchLabels(opened.labels, opened.pointCount, set));
  const unit = (opened.units ?? '').trim().toLowerCase();
  const millimetres = millimetresPer[Object.hasOwn(millimetresPer, unit) ? unit : stood.pose.unit]!;
  const curves = kneeCurves(opened, points, millimetres, model);

  const knees = (['right', 'left'] as const).map((side): KneeCrosstalk | KneeNotUsable => {
    const lacking = whyNot(side, model, set, points, curves[side]);
    if (lacking !== null) return { side, reason: lacking };
    const leg = readLeg(model, side, standing)!;
    const found = staticTurn(side, set, session, standing, report);
    return judgeKnee(side, curves[side], { markers: standing, leg }, found, set, opened.firstFrame);
  });
  const usable = knees.filter(isUsable);
  const adjust = usable.some(({ agreement }) => agreement !== 'clear' && agreement !== 'other-cause');
  return { verdict: usable.length === 0 ? 'not-usable' : adjust ? 'adjust' : 'clear', knees, problems: [] };
}

function notUsable(problem: string): Crosstalk {
  return { verdict: 'not-usable', knees: [], problems: [problem] };
}

/** The file, or a sentence why it cannot be read. */
function open(bytes: Uint8Array): C3dFile | string {
  try {
    const file = readC3d(bytes);
    return file.frameCount === 0 || file.pointCount === 0 ? 'it holds no frames with points.' : file;
  } catch (error) {
    if (error instanceof C3dError) return error.message;
    throw error;
  }
}

/** What a side lacks before its knee can be judged; null for nothing. */
function whyNot(
  side: Side,
  model: LowerBodyModel,
  set: MarkerSet,
  points: Int32Array,
  curve: KneeCurve,
): string | null {
  const leg = model[side];
  if ('lacking' in leg) return `The static trial gives no model of the ${side} leg: ${leg.lacking}.`;
  if (curve.frames.length > 0) return null;
  const { knee, ankle } = set.model![side];
  const needed = [knee.lateral, knee.wand, ankle.lateral, ankle.wand].filter((label) => label !== null);
  const missing = needed.filter((label) => {
    const index = set.markers.findIndex((marker) => marker.label === label);
    return index >= 0 && points[index]! < 0;
  });
  return missing.length > 0
    ? `The movement has no ${missing.join(', ')}, so that the ${side} knee cannot be read.`
    : `The markers of pelvis and ${side} leg are never seen together in the movement.`;
}
