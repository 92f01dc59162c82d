/** What stands in a cell; the second line is smaller. */
export type Cell = string | { readonly first: string; readonly second: string };

interface WideTableProps {
  /** For who cannot see it. */
  readonly label: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly Cell[])[];
  /** How many columns, from the left, hold words. */
  readonly words: number;
}

/** A table of figures: on a narrow screen it is moved sideways, not broken up. */
export function WideTable({ label, head, rows, words }: WideTableProps) {
  const kind = (column: number) => (column < words ? {} : { class: 'amount' });
  const shown = (cell: Cell) =>
    typeof cell === 'string' ? (
      cell
    ) : (
      <>
        {cell.first}
        <span class="said">{cell.second}</span>
      </>
    );
  return (
    <section class="wide-table" aria-label={label} tabindex={0}>
      <table>
        <thead>
          <tr>
            {head.map((cell, column) => (
              <th scope="col" {...kind(column)}>
                {cell}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr>
              {row.map((cell, column) =>
                column === 0 ? <th scope="row">{shown(cell)}</th> : <td {...kind(column)}>{shown(cell)}</td>,
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
