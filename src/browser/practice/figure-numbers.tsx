import { figureRows } from '../../core/practice/figure-table.ts';
import type { ShownTrial } from '../../core/practice/shown-trial.ts';
import { fixed } from '../../core/report/rounding.ts';

/** The figure for whoever hears it or reads numbers. */
export function FigureNumbers({ shown: { figure, choices } }: { readonly shown: ShownTrial }) {
  return (
    <details class="numbers">
      <summary>The figure in numbers</summary>
      <table>
        <thead>
          <tr>
            <th scope="col">Marker</th>
            <th scope="col">Right: forward, outward, up; mm</th>
            <th scope="col">Left (or middle): forward, outward, up; mm</th>
          </tr>
        </thead>
        <tbody>
          {figureRows(figure.markers, choices).map(({ called, right, left, midline }) => (
            <tr>
              <th scope="row">{called}</th>
              <td>{numbers(right)}</td>
              <td>{numbers(left ?? midline)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}

function numbers(place: readonly number[] | null): string {
  return place === null ? '' : place.map((mm) => fixed(0, mm)).join(', ');
}
