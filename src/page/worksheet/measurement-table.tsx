import { isSided, type Measure } from '../../core/marker-set/measure.ts';
import { howTaken, nameMeasure } from '../../core/measurements/measure-words.ts';
import { findQuantity, quantitiesOf } from '../../core/measurements/quantities.ts';
import type { Session } from '../../core/session/session.ts';
import { measuringOrder } from './measuring-order.ts';

/** A row for each hand measurement, in the order of the instruments, with what the session holds already. */
export function MeasurementTable({ session }: { readonly session: Session }) {
  const quantities = quantitiesOf(session);
  const written = (measure: Measure, side: 'right' | 'left' | null): string =>
    findQuantity(quantities, measure, side)
      ?.written.map(({ value, unit }) => `${value} ${unit}`)
      .join(', ') ?? '';
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">Instrument</th>
          <th scope="col">Measurement, and how it is taken</th>
          <th scope="col" class="write">
            Right
          </th>
          <th scope="col" class="write">
            Left
          </th>
          <th scope="col" class="write">
            Again
          </th>
        </tr>
      </thead>
      <tbody>
        {measuringOrder.flatMap(({ instrument, measures }) =>
          measures.map((measure, index) => (
            <tr>
              {index === 0 ? (
                <th scope="rowgroup" rowSpan={measures.length}>
                  {instrument}
                </th>
              ) : null}
              <td>
                <span class="label">{nameMeasure(measure)}</span> <span class="small">{howTaken(measure)}</span>
              </td>
              {isSided(measure) ? (
                <>
                  <td>{written(measure, 'right')}</td>
                  <td>{written(measure, 'left')}</td>
                </>
              ) : (
                <td colSpan={2}>{written(measure, null)}</td>
              )}
              <td />
            </tr>
          )),
        )}
      </tbody>
    </table>
  );
}
