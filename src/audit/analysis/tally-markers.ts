import type { SetSummary } from '../parts/set-summary.ts';
import type { StepRow } from '../parts/trial-row.ts';
import type { MarkerTally } from './audit-report.ts';
import { ExactMoments } from './exact-moments.ts';

interface Running {
  named: number;
  readonly ways: Map<string, ExactMoments>;
  readonly distance: ExactMoments;
  readonly turn: ExactMoments;
}

/** Which markers the steps name, and which way they would have to go. */
export class MarkerTallies {
  readonly #markers = new Map<string, Running>();

  add(steps: readonly StepRow[], sideOf: (marker: string) => string): void {
    const named = new Set<string>();
    for (const step of steps) {
      if (step.marker === null || step.action === 'relabel' || named.has(step.marker)) continue;
      named.add(step.marker);
      const running = this.#markers.get(step.marker) ?? begin();
      this.#markers.set(step.marker, running);
      running.named += 1;
      const way = mainWay(step, sideOf(step.marker) === 'midline');
      if (way !== null) {
        const moments = running.ways.get(way.way) ?? new ExactMoments();
        running.ways.set(way.way, moments);
        moments.add(way.mm);
      }
      if (step.distance_mm !== null) running.distance.add(step.distance_mm);
      if (step.turn_deg !== null) running.turn.add(step.turn_deg);
    }
  }

  /** Those named most often first. */
  report(sets: readonly SetSummary[]): MarkerTally[] {
    const known = new Map(sets.flatMap(({ markers }) => markers).map((marker) => [marker.label, marker]));
    return [...this.#markers]
      .map(([marker, { named, ways, distance, turn }]): MarkerTally => {
        const summary = known.get(marker);
        return {
          marker,
          called: summary?.called ?? marker,
          side: summary?.side ?? 'midline',
          named,
          ways: [...ways]
            .map(([way, moments]) => ({ way, recordings: moments.count, meanMm: moments.mean! }))
            .sort((a, b) => b.recordings - a.recordings || (a.way < b.way ? -1 : 1)),
          meanDistanceMm: distance.mean,
          meanTurnDeg: turn.mean,
        };
      })
      .sort((a, b) => b.named - a.named || (a.marker < b.marker ? -1 : 1));
  }
}

function begin(): Running {
  return { named: 0, ways: new Map(), distance: new ExactMoments(), turn: new ExactMoments() };
}

/** The largest part of the way, in words. */
function mainWay({ forward_mm, outward_mm, up_mm }: StepRow, isMidline: boolean): { way: string; mm: number } | null {
  const parts: [number, string, string][] = [
    [forward_mm ?? 0, 'forward', 'backward'],
    [outward_mm ?? 0, isMidline ? 'left' : 'outward', isMidline ? 'right' : 'inward'],
    [up_mm ?? 0, 'up', 'down'],
  ];
  const [size, positive, negative] = parts.reduce((best, part) =>
    Math.abs(part[0]) > Math.abs(best[0]) ? part : best,
  );
  return size === 0 ? null : { way: size > 0 ? positive : negative, mm: Math.abs(size) };
}
