/** Fills one thing into the positions array from those filled before it. Body axes, mm. */
export type PlacingStep = (positions: Float64Array) => void;
