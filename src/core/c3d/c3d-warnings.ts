/** What each warning of the reader means, one sentence a code: the source of the documentation page. */
export const c3dWarningMeanings = {
  'processor-unknown':
    'The processor byte names none of Intel, DEC and MIPS; the byte order was judged from the header.',
  'parameters-beyond-file': 'The parameter section starts beyond the end of the file; only the header was used.',
  'parameter-block-missing': 'The header names no block for the parameter section; block 2 was tried.',
  'parameters-unterminated': 'The parameter list runs to the end of its section without an end mark.',
  'parameters-broken-off': 'A parameter record points backwards or beyond its section; the records after it are lost.',
  'parameter-unreadable':
    'A parameter has an unknown type or claims more values than its section can hold; it was skipped.',
  'parameter-repeated': 'A group or a parameter is stored twice; the first one counts.',
  'group-missing': 'Parameters belong to a group number that no group record names; they are kept under that number.',
  'point-count-disagrees':
    'Header and POINT:USED state different numbers of points; the one that fits the file counts.',
  'frame-count-disagrees': 'The file states different frame counts; the one that fits the file counts.',
  'frame-count-missing': 'No usable POINT:FRAMES; the frame numbers of the header were used.',
  'frame-count-at-limit': 'The frame count is the 65535 a word can hold and the file has room for more frames.',
  'first-frame-disagrees': 'The header and TRIAL:ACTUAL_START_FIELD state different first frames; the header counts.',
  'data-start-disagrees': 'Header and POINT:DATA_START place the data differently; the one that fits the file counts.',
  'data-start-missing':
    'No usable POINT:DATA_START; the header was used, or failing that the end of the parameter section.',
  'data-truncated': 'The file ends before the data it states; whole frames up to there were read.',
  'no-points': 'The file stores no points.',
  'scale-disagrees':
    'Header and POINT:SCALE differ; POINT:SCALE counts, unless only the header suits the number format of the data.',
  'scale-missing': 'No usable POINT:SCALE; the header was used, or failing that 1.',
  'number-format-disagrees':
    'Header and POINT:SCALE differ in sign, one saying float and one integer; the one that fits the file counts.',
  'rate-disagrees': 'Header and POINT:RATE state different frame rates; POINT:RATE counts.',
  'rate-missing': 'No usable POINT:RATE; the header was used, or failing that the rate is unknown.',
  'units-missing': 'No POINT:UNITS; the unit of length is unknown.',
  'labels-missing': 'No POINT:LABELS; the points have no names.',
  'labels-more-than-points': 'There are more labels than points; the surplus names nothing.',
  'labels-fewer-than-points': 'There are fewer labels than points; the last points have no name.',
  'labels-blank': 'Some points have a blank label.',
  'labels-repeated': 'Some label names more than one point.',
  'analog-count-disagrees':
    'Header and ANALOG group state different numbers of analog values a frame; the one that fits the file counts.',
  'residual-words-oversized': 'Residual words do not fit a 16-bit integer; only their sign was used.',
  'every-point-invalid': 'Every point is marked invalid in every frame.',
} as const;

export type C3dWarningCode = keyof typeof c3dWarningMeanings;

/** Something odd in a file that was read all the same; `message` says where and what was used. */
export interface C3dWarning {
  code: C3dWarningCode;
  message: string;
}
