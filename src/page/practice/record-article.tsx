import {
  chanceWords,
  dueWords,
  evidenceWords,
  hasSpread,
  historyWords,
  landmarkCells,
  madeTitle,
  recordLimits,
  scoreRows,
  spanWords,
  storedTitle,
  wasAnswered,
} from '../../core/practice/record-words.ts';
import type { TraineeRecord } from '../../core/practice/trainee-record.ts';
import { fixed } from '../../core/report/rounding.ts';

interface RecordProps {
  readonly record: TraineeRecord;
}

/** Sign-offs first, for they are what is printed and filed; then what they rest on. */
export function RecordArticle({ record }: RecordProps) {
  const { trainee, asOf, markerSet, landmarks } = record;
  return (
    <article class="record" aria-labelledby="record-heading">
      <h1 id="record-heading" tabIndex={-1}>{`Practice record of ${trainee}, as of ${asOf}`}</h1>
      <p class="identity">{`Marker set ${markerSet}; ${spanWords(record)}.`}</p>
      <SignOffs record={record} />
      <ScoreSection record={record} of="made" title={madeTitle} />
      <ScoreSection record={record} of="stored" title={storedTitle} />
      <ByDay landmarks={landmarks} />
      <Repeats landmarks={landmarks} />
      {recordLimits(record).map((says) => (
        <p class="small">{says}</p>
      ))}
    </article>
  );
}

function SignOffs({ record: { landmarks } }: RecordProps) {
  const open = landmarks.filter(({ signOff }) => signOff === null);
  const signed = landmarks.flatMap(({ called, signOff }) => (signOff === null ? [] : [{ called, signOff }]));
  return (
    <section aria-labelledby="sign-offs">
      <h2 id="sign-offs">Sign-off of each landmark</h2>
      {signed.length === 0 ? null : (
        <table>
          <thead>
            <tr>
              <th scope="col">Landmark</th>
              <th scope="col">By</th>
              <th scope="col">On</th>
              <th scope="col">Due</th>
              <th scope="col">Stands</th>
            </tr>
          </thead>
          <tbody>
            {signed.map(({ called, signOff }) => (
              <tr class={signOff.state === 'in-force' ? '' : 'fail'}>
                <th scope="row">
                  {called}
                  <span class="said">{`${evidenceWords(signOff)}.`}</span>
                </th>
                <td data-of="By">{signOff.signer}</td>
                <td data-of="On" class="figure">
                  {signOff.on}
                </td>
                <td data-of="Due" class="figure">
                  {signOff.due}
                </td>
                <td>
                  <span class="status">{dueWords(signOff)}</span>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <p class="by-hand">Signature of who signs, by hand, and the day</p>
      {open.length === 0 ? null : <p>{`Not signed off: ${open.map(({ called }) => called).join(', ')}.`}</p>}
    </section>
  );
}

function ScoreSection({ record, of, title }: RecordProps & { readonly of: 'made' | 'stored'; readonly title: string }) {
  const score = record[of];
  if (score.trials === 0) return null;
  const asked = record.landmarks.filter((line) => wasAnswered(line[of]));
  return (
    <section aria-labelledby={`score-${of}`}>
      <h2 id={`score-${of}`}>{title}</h2>
      <ul>
        {scoreRows(score).map(([what, count, share]) => (
          <li>{`${what}: ${count} (${share})`}</li>
        ))}
      </ul>
      <p>{chanceWords(score, record.blindChoices)}</p>
      {asked.length === 0 ? null : (
        <table>
          <thead>
            <tr>
              <th scope="col">Landmark</th>
              <th scope="col">Found</th>
              <th scope="col">95 %</th>
              <th scope="col">Wrongly named</th>
              <th scope="col">Distance, mm: bias (size)</th>
            </tr>
          </thead>
          <tbody>
            {asked.map((line) => {
              const [found, share, invented, distance] = landmarkCells(line[of]);
              return (
                <tr>
                  <th scope="row">{line.called}</th>
                  <td data-of="Found" class="figure">
                    {found}
                  </td>
                  <td data-of="95 %">{share}</td>
                  <td data-of="Wrongly named">{invented}</td>
                  <td data-of="Distance, mm: bias (size)" class="figure">
                    {distance}
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      )}
    </section>
  );
}

function ByDay({ landmarks }: Pick<TraineeRecord, 'landmarks'>) {
  const told = landmarks.filter(({ history }) => history.length > 0);
  if (told.length === 0) return null;
  return (
    <section aria-labelledby="by-day">
      <h2 id="by-day">By day: found of the times it was off</h2>
      <ul>
        {told.map(({ called, history }) => (
          <li>{`${called}: ${historyWords(history)}`}</li>
        ))}
      </ul>
    </section>
  );
}

function Repeats({ landmarks }: Pick<TraineeRecord, 'landmarks'>) {
  const told = landmarks.filter(hasSpread);
  if (told.length === 0) return null;
  return (
    <section aria-labelledby="repeats">
      <h2 id="repeats">Placed anew, skin marks removed: spread of one placing, 1 SD, mm</h2>
      <table>
        <thead>
          <tr>
            <th scope="col">Landmark</th>
            <th scope="col">Forward</th>
            <th scope="col">Up</th>
            <th scope="col">Outward</th>
            <th scope="col">Placings</th>
            <th scope="col">On</th>
          </tr>
        </thead>
        <tbody>
          {told.map(({ called, repeat }) => (
            <tr>
              <th scope="row">{called}</th>
              <SpreadCell of="Forward" mm={repeat!.forwardMm} />
              <SpreadCell of="Up" mm={repeat!.upMm} />
              <SpreadCell of="Outward" mm={repeat!.outwardMm} />
              <td data-of="Placings">{String(repeat!.placings)}</td>
              <td data-of="On" class="figure">
                {repeat!.on}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

/** On a narrow screen, where cells stand one below the other, one that tells nothing is left out. */
function SpreadCell({ of, mm }: { readonly of: string; readonly mm: number | null }) {
  return (
    <td data-of={of} class={mm === null ? 'none' : ''}>
      {fixed(1, mm)}
    </td>
  );
}
