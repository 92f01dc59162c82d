import type { Session } from '../session/session.ts';
import { checkBand, readingsOf } from './check-band.ts';
import { checkDepth } from './check-depth.ts';
import { checkExchanged } from './check-exchanged.ts';
import { checkLeg } from './check-leg.ts';
import { checkMissing } from './check-missing.ts';
import { checkRepeats } from './check-repeats.ts';
import { checkSides } from './check-sides.ts';
import { keyOf } from './quantities.ts';
import { laySheet } from './sheet.ts';
import { type ReadingName, type SheetFinding, sameReading } from './sheet-finding.ts';

/**
 * The sheet of hand measurements by itself, before any capture: what is missing, and which readings are to be taken again
 * and why. One misread value is told once, by the check that names it best.
 */
export function checkSheet(session: Session): SheetFinding[] {
  const sheet = laySheet(session);
  const exchanged = checkExchanged(sheet);
  const findings = [...exchanged];
  const add = (more: readonly SheetFinding[]): void => {
    const told = readingsOf(findings);
    findings.push(...more.filter(({ readings }) => !told.has(keyOf(readings[0]!))));
  };
  add(checkBand(sheet));
  add(checkLeg(sheet));
  add(checkRepeats(sheet));
  add(checkSides(sheet, readingsOf(findings)));
  add(checkDepth(sheet, readingsOf(findings)));
  return [...findings, ...checkMissing(sheet)].map((finding) => settle(finding, session));
}

/** Whether somebody took the reading again and found it right. */
export function isConfirmed(reading: ReadingName, { confirmedReadings }: Session): boolean {
  return confirmedReadings.some((one) => sameReading(one, reading));
}

/** A doubted reading that was taken again and found right: the finding stays, and asks for nothing. */
export function settle(finding: SheetFinding, session: Session): SheetFinding {
  if (finding.status !== 'repeat') return finding;
  const confirmed = session.confirmedReadings.find((one) => sameReading(one, finding.readings[0]!));
  if (confirmed === undefined) return finding;
  const { by, on, reason } = confirmed;
  return {
    ...finding,
    status: 'confirmed',
    settled: `taken again and found right by ${by} on ${on}${reason === undefined ? '' : `: ${reason}`}`,
  };
}
