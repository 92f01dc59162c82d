import { describe, expect, it } from 'vitest';
import { parseStudy, StudyError } from '../../../src/core/study/parse-study.ts';

const capture = (subject: string, assessor: string, session: string, rest: object = {}) => ({
  subject,
  assessor,
  session,
  trial: `${subject}-${assessor}-${session}.c3d`,
  ...rest,
});
const designOf = (captures: readonly object[], rest: object = {}) =>
  JSON.stringify({ format: 'setsquare-study/1', captures, ...rest });
const two = [capture('V1', 'AK', '1'), capture('V1', 'AK', '2')];

function faultOf(text: string): StudyError {
  try {
    parseStudy(text);
  } catch (error) {
    if (error instanceof StudyError) return error;
    throw error;
  }
  throw new Error('The design was taken.');
}

describe('the design of a study', () => {
  it('is read with what was left out said as null', () => {
    const { captures, title, skinMarksRemoved } = parseStudy(designOf(two));
    expect([title, skinMarksRemoved]).toEqual([null, null]);
    expect(captures[1]).toEqual({ ...two[1], sessionFile: null, on: null });
  });

  it.each([
    ['no JSON', '{', '/'],
    ['another format', designOf(two).replace('study/1', 'study/2'), '/format'],
    ['one capture', designOf([two[0]!]), '/captures'],
    ['a field that nobody knows', designOf(two, { author: 'x' }), '/'],
    ['a name in place of a code', designOf([two[0]!, capture('Jane Doe', 'AK', '2')]), '/captures/1/subject'],
    ['a control character', designOf([two[0]!, capture('V\u001b', 'AK', '2')]), '/captures/1/subject'],
    ['no day of the calendar', designOf([two[0]!, capture('V1', 'AK', '2', { on: '2025-02-30' })]), '/captures/1/on'],
    ['no such due day', designOf(two, { nextDue: '2025-13-01' }), '/nextDue'],
    ['a placing written twice', designOf([two[0]!, { ...two[0]!, trial: 'other.c3d' }]), '/captures/1'],
    ['a trial written twice', designOf([two[0]!, { ...two[1]!, trial: 'V1-AK-1.c3d' }]), '/captures/1/trial'],
  ])('is refused for %s, in one sentence that names the place', (_, text, pointer) => {
    const fault = faultOf(text);
    expect(fault.pointer).toBe(pointer);
    expect(fault.message.trim().split('\n')).toHaveLength(1);
    expect(fault.message).not.toContain('\u001b');
  });
});
