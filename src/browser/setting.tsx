import { type PageState, shippedSets } from './page-state.ts';

interface SettingProps {
  readonly state: PageState;
  readonly choose: (next: PageState) => void;
}

/** Against what the trial is checked: the marker set, and the session where one was dropped. */
export function Setting({ state, choose }: SettingProps) {
  const { markerSet, session } = state;
  const own = markerSet.text !== null;
  return (
    <div class="setting">
      <label>
        {'Marker set '}
        <select
          value={own ? '' : markerSet.name}
          onChange={({ currentTarget }) =>
            choose({ ...state, faults: [], markerSet: { name: currentTarget.value, text: null } })
          }
        >
          {own ? <option value="">{markerSet.name}</option> : null}
          {shippedSets.map((name) => (
            <option value={name}>{name}</option>
          ))}
        </select>
      </label>
      {session === null ? null : (
        <span>
          {`Session ${session.name} `}
          <button type="button" onClick={() => choose({ ...state, faults: [], session: null })}>
            Without it
          </button>
        </span>
      )}
    </div>
  );
}
