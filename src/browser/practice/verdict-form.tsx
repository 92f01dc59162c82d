import type { WrittenVerdict } from '../../core/practice/score-verdict.ts';
import type { MarkerChoice } from '../../core/practice/shown-trial.ts';
import type { Way } from '../../core/practice/skin-ways.ts';

/** One marker as it is being written down. */
export interface Row {
  readonly marker: string;
  readonly way: Way | '';
  readonly mm: string;
}

export const emptyRow: Row = { marker: '', way: '', mm: '' };
const mostRows = 4;

interface VerdictFormProps {
  readonly choices: readonly MarkerChoice[];
  readonly rows: readonly Row[];
  readonly change: (rows: readonly Row[]) => void;
  readonly write: (verdict: WrittenVerdict) => void;
  readonly isBusy: boolean;
}

/** The trainee's own verdict, written down before anything is told. */
export function VerdictForm({ choices, rows, change, write, isBusy }: VerdictFormProps) {
  const set = (at: number, row: Row) => change(rows.map((one, index) => (index === at ? row : one)));
  const written = rows.flatMap(({ marker, way, mm }) =>
    marker === '' || way === '' ? [] : [{ marker, way, mm: Number(mm) }],
  );
  const isWhole =
    written.length === rows.length &&
    written.every(({ mm }) => mm >= 1 && mm <= 300) &&
    new Set(written.map(({ marker }) => marker)).size === written.length;
  return (
    <form
      class="verdict"
      onSubmit={(event) => {
        event.preventDefault();
        if (isWhole) write(written);
      }}
    >
      <h2>Your verdict</h2>
      <button type="button" class="large" disabled={isBusy} onClick={() => write([])}>
        Nothing to move
      </button>
      <p class="or">or</p>
      {rows.map((row, at) => (
        <MarkerRow row={row} at={at} choices={choices} set={(next) => set(at, next)} />
      ))}
      <div class="rows">
        {rows.length < mostRows ? (
          <button type="button" onClick={() => change([...rows, emptyRow])}>
            And another marker
          </button>
        ) : null}
        {rows.length > 1 ? (
          <button type="button" onClick={() => change(rows.slice(0, -1))}>
            One fewer
          </button>
        ) : null}
      </div>
      <button type="submit" class="large primary" disabled={!isWhole || isBusy}>
        Write it down and show
      </button>
      <p class="small">
        Choose a marker in the list or tap it on the figure; then which way it should go, and about how far. What is
        right is told only afterwards.
      </p>
    </form>
  );
}

const groups = [
  ['midline', 'Middle'],
  ['right', "Patient's right"],
  ['left', "Patient's left"],
] as const;

interface MarkerRowProps {
  readonly row: Row;
  readonly at: number;
  readonly choices: readonly MarkerChoice[];
  readonly set: (row: Row) => void;
}

function MarkerRow({ row, at, choices, set }: MarkerRowProps) {
  const ways = choices.find(({ marker }) => marker === row.marker)?.ways ?? [];
  return (
    <fieldset>
      <legend>{at === 0 ? 'Move this marker' : `Marker ${at + 1}`}</legend>
      <label>
        Marker
        <select
          name={`marker-${at}`}
          value={row.marker}
          onChange={({ currentTarget }) => set({ ...row, marker: currentTarget.value, way: '' })}
        >
          <option value="">choose</option>
          {groups.map(([side, title]) => (
            <optgroup label={title}>
              {choices
                .filter((choice) => choice.side === side)
                .map(({ marker, called }) => (
                  <option value={marker}>{side === 'midline' ? called : `${side} ${called}`}</option>
                ))}
            </optgroup>
          ))}
        </select>
      </label>
      <label>
        Which way
        <select
          name={`way-${at}`}
          value={row.way}
          disabled={ways.length === 0}
          onChange={({ currentTarget }) => set({ ...row, way: currentTarget.value as Way | '' })}
        >
          <option value="">choose</option>
          {ways.map(({ way, says }) => (
            <option value={way}>{says}</option>
          ))}
        </select>
      </label>
      <label>
        About how far, mm
        <input
          type="number"
          name={`mm-${at}`}
          min="1"
          max="300"
          step="1"
          inputMode="numeric"
          value={row.mm}
          onInput={({ currentTarget }) => set({ ...row, mm: currentTarget.value })}
        />
      </label>
    </fieldset>
  );
}
