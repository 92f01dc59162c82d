import type { LoadedMarkerSet } from '../../core/marker-set/parse-marker-set.ts';
import { whenToStop } from '../../core/report/advice.ts';
import type { Session } from '../../core/session/session.ts';
import { sealStyle, standalonePage } from '../standalone-page.tsx';
import { MeasurementTable } from './measurement-table.tsx';
import { PlacementTable } from './placement-table.tsx';
import { worksheetStyle } from './worksheet-style.ts';

const style = sealStyle(worksheetStyle);

/** What is seen to before anything is measured; common practice, local rules come first. */
const preparation: readonly string[] = [
  'Who I am and what happens today explained; questions answered',
  'Consent given (patient, or whoever decides; a child assents)',
  'Chaperone offered: accepted / declined / name:',
  'Tape or adhesive allergy, fragile skin asked about',
  'Skin visible at every landmark; patient warm and covered in between',
  'Somebody within arm’s reach, a chair behind, a rail in front',
  'Markers counted, clean, with fresh tape on short bases',
  'A long pin is cut so that the marker sits on its base',
];

/**
 * A printable sheet for one patient: preparation, hand measurements by instrument, placement in the order of the protocol
 * with what finds and confirms each landmark, variants, and when to stop. Everything about markers is the set's own text.
 * No name on it: a code. What the session holds already is filled in.
 */
export function renderWorksheet(set: LoadedMarkerSet, session: Session): string {
  const { code, ageYears, sex } = session.subject;
  return standalonePage(
    `Worksheet: ${set.name}, version ${set.version}`,
    style,
    <main>
      <h1>Preparing a standing trial</h1>
      <p>{`${set.title}. Marker set ${set.name}, version ${set.version} (${set.sha256.slice(0, 8)}).`}</p>
      <div class="fields">
        <Field name="Subject code" value={code} />
        <Field name="Age" value={ageYears === null ? null : `${ageYears} years`} />
        <Field name="Sex" value={sex} />
        <Field name="Date" value={null} />
        <Field name="Assessor" value={null} />
        <Field name="Second check" value={null} />
      </div>

      <h2>1. Before</h2>
      <ul class="boxes">
        {preparation.map((item) => (
          <li>
            <span class="box" />
            {item}
          </li>
        ))}
      </ul>

      <h2>2. Hand measurements, by instrument</h2>
      <p class="small">Write the unit. Take a doubtful reading twice, and both down.</p>
      <MeasurementTable session={session} />

      <h2>3. What is not textbook here</h2>
      <ul class="boxes">
        {set.variants.map(({ title, says }) => (
          <li>
            <span class="box" />
            <b>{title}</b>, side: ____. {says}
          </li>
        ))}
        <li>
          <span class="box" />
          <b>contracture</b>, joint, side and angle: ____________
        </li>
        <li>
          <span class="box" />
          <b>legs of different length</b>, right less left: ______ mm
        </li>
      </ul>

      <h2>4. Placement, right and left in turn by one assessor</h2>
      <p class="small">
        Tick when placed, and again when checked from the side by a second look. Mark the place with a skin pen before a
        marker is moved.
      </p>
      <PlacementTable set={set} />

      <h2>5. After the capture, while the patient still stands</h2>
      <ul class="boxes">
        <li>
          <span class="box" />
          Checked; steps done: ______
        </li>
        <li>
          <span class="box" />
          On the bone, left where it is: ____________
        </li>
      </ul>
      <p class="stop">
        <b>Stop.</b> {whenToStop} This sheet follows the protocol of the laboratory, local rules and licensed practice,
        and never replaces them.
      </p>
    </main>,
  );
}

function Field({ name, value }: { readonly name: string; readonly value: string | null }) {
  return (
    <div class="field">
      <span>{name}</span>
      <span class="line">{value ?? ''}</span>
    </div>
  );
}
