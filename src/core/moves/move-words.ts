import type { MarkerDefinition } from '../marker-set/marker-set.ts';
import type { Session } from '../session/session.ts';

/** How far a marker goes along each way of its skin, mm; the largest first. */
export interface SlideAmount {
  readonly direction: MarkerDefinition['slides'][number];
  readonly mm: number;
}

const opposite = { forward: 'backward', up: 'down', outward: 'inward', left: 'right' } as const;

/** "up, away from the sole"; two ways where both matter: "up, toward the head, and inward, toward the midline". */
export function sayAlong(marker: MarkerDefinition, amounts: readonly SlideAmount[]): string {
  return telling(amounts)
    .map(({ direction, mm }) => {
      const way = wayOf(marker, direction, mm);
      const toward = marker.toward[way];
      return toward === undefined
        ? way
        : marker.side === 'midline' && (way === 'left' || way === 'right')
          ? toward
          : `${way}, ${toward}`;
    })
    .join(', and ');
}

/** One part of a movement as it is told at the bedside: whole mm, or the nearest 5 for a palpated landmark. */
export interface MoveWay {
  readonly mm: number;
  /** "down, toward the feet" */
  readonly along: string;
}

export function waysOf(marker: MarkerDefinition, amounts: readonly SlideAmount[]): MoveWay[] {
  return telling(amounts).map(({ direction, mm }) => ({
    mm: roundMm(marker, Math.abs(mm)),
    along: sayAlong(marker, [{ direction, mm }]),
  }));
}

/** "15 mm down, toward the feet"; whole mm for markers set by eye, the nearest 5 for palpated ones. */
export function sayDistances(marker: MarkerDefinition, amounts: readonly SlideAmount[]): string {
  return waysOf(marker, amounts)
    .map(({ mm, along }) => `${mm} mm ${along}`)
    .join(', and ');
}

/** The patient's right heel marker; the patient's sacral marker. */
export function whose(marker: MarkerDefinition): string {
  return marker.side === 'midline' ? `the patient's ${marker.called}` : `the patient's ${marker.side} ${marker.called}`;
}

/** Landmark as the protocol has it for this patient: a variant may name another one. */
export function landmarkOf(
  marker: MarkerDefinition,
  session: Session,
  variants: readonly { id: string; landmarks: Readonly<Record<string, string>> }[],
): string {
  for (const variant of variants) {
    const recorded = session.facts.variants.some(
      (item) => item.id === variant.id && (item.side === null || item.side === marker.side),
    );
    if (recorded && Object.hasOwn(variant.landmarks, marker.stem)) return variant.landmarks[marker.stem]!;
  }
  return marker.landmark;
}

export function roundMm(marker: MarkerDefinition, mm: number): number {
  return marker.placedBy === 'eye' ? Math.max(1, Math.round(mm)) : Math.max(5, Math.round(mm / 5) * 5);
}

/** Only the ways that matter: the largest, and another one at least a third as large. */
function telling(amounts: readonly SlideAmount[]): SlideAmount[] {
  const sorted = [...amounts].sort((a, b) => Math.abs(b.mm) - Math.abs(a.mm));
  return sorted.filter(({ mm }, index) => index === 0 || Math.abs(mm) >= Math.abs(sorted[0]!.mm) / 3);
}

function wayOf(
  marker: MarkerDefinition,
  direction: SlideAmount['direction'],
  mm: number,
): SlideAmount['direction'] | (typeof opposite)[keyof typeof opposite] {
  // On the midline "outward" is measured to the left.
  const named = marker.side === 'midline' && direction === 'outward' ? 'left' : direction;
  return mm >= 0 ? named : opposite[named];
}
