import type { StepOutcome } from '../../core/captures/step-result.ts';

const width = 300;

/** How far a marker went of what was asked, drawn; its figures stand in the words above it. */
export function DistanceBar({ step: { askedMm, movedMm } }: { readonly step: StepOutcome }) {
  if (askedMm === null || movedMm === null || askedMm <= 0) return null;
  // Room for going too far and for the wrong way, where it went so.
  const from = Math.min(0, movedMm);
  const to = Math.max(askedMm, movedMm);
  const x = (mm: number) => Math.round(((mm - from) / (to - from)) * (width - 8) * 10) / 10 + 4;
  return (
    <svg class="distance" viewBox={`0 0 ${width} 26`} aria-hidden="true">
      <rect class="asked" x={x(0)} y="9" width={x(askedMm) - x(0)} height="8" />
      <rect class="moved" x={x(Math.min(0, movedMm))} y="7" width={Math.abs(x(movedMm) - x(0))} height="12" />
      <path class="start" d={`M${x(0)} 3v20`} />
      <path class="goal" d={`M${x(askedMm)} 1v24`} />
    </svg>
  );
}
