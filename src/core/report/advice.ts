/** Sentences that every report for people carries, whatever its form. */

export const notProof = 'This does not show that every marker is on its bone.';

export const walkingTrials =
  'If walking trials have already been recorded with these markers, move none unless the static and the walking trials are repeated; otherwise record the doubt.';

export const whenToStop =
  'After two corrections, or at any tiredness, pain or dizziness: stop, offer the chair, and keep what there is.';

export const skinPen = 'First mark its present place with a skin pen.';

export const supportsOnly =
  "This report supports and never replaces palpation, the laboratory's protocol and licensed practice. It is not certified as a medical device.";
