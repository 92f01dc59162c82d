import { angleInWords, measureWords } from '../../core/moves/changes-words.ts';
import type { Report, ReportedAngles } from '../../core/report/report.ts';
import { decimalsOf, fixed } from '../../core/report/rounding.ts';
import { sentence } from '../../core/report/sentence.ts';
import { positiveAngles } from '../../core/report/text-angles.ts';
import { Heading, type Level } from '../heading.tsx';
import { valueWords } from './figures-in-words.ts';

type Angle = ReportedAngles['values'][number];

/** Joint angles in standing, and the lengths of the patient that they rest on. */
export function Angles({ report, id, level }: { readonly report: Report; readonly id: string; readonly level: Level }) {
  // A report of before the model was read has no such field.
  const angles: ReportedAngles | null = report.angles ?? null;
  if (angles === null) return null;
  return (
    <section aria-labelledby={`${id}-heading`}>
      <Heading level={level} id={`${id}-heading`}>
        Joint angles in standing
      </Heading>
      {angles.values.length === 0 ? null : <AngleTable values={angles.values} />}
      {angles.values.length === 0 ? null : <p class="small">{positiveAngles}</p>}
      {angles.says === '' ? null : <p>{`${sentence(angles.says)} Figures marked "est." rest on that.`}</p>}
      <ul>
        {angles.notComputed.map(({ side, reason }) => (
          <li>{sentence(`not computed on the ${side}: ${reason}`)}</li>
        ))}
      </ul>
      {angles.measurements.length === 0 ? null : <Lengths measurements={angles.measurements} />}
    </section>
  );
}

function AngleTable({ values }: { readonly values: readonly Angle[] }) {
  const names = [...new Set(values.map(({ joint, motion }) => angleInWords(joint, motion)))];
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">Angle</th>
          <th scope="col">Patient's right</th>
          <th scope="col">Patient's left</th>
          <th scope="col">Usual</th>
        </tr>
      </thead>
      <tbody>
        {names.map((name) => {
          const both = values.filter(({ joint, motion }) => angleInWords(joint, motion) === name);
          const middle = both.find(({ side }) => side === 'midline');
          const usual = both[0]!.usual;
          return (
            <tr>
              <th scope="row">{`${name[0]!.toUpperCase()}${name.slice(1)}`}</th>
              {middle ? (
                <td colSpan={2}>
                  <Figure angle={middle} />
                </td>
              ) : (
                (['right', 'left'] as const).map((side) => (
                  <td>
                    {/* Where a narrow window has no room for the heading of the column. */}
                    <span class="narrow">{`${side} `}</span>
                    <Figure angle={both.find((one) => one.side === side)} />
                  </td>
                ))
              )}
              <td>{usual === null ? '' : `${usual.map((end) => fixed(decimalsOf.deg, end)).join(' to ')}°`}</td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

function Figure({ angle }: { readonly angle: Angle | undefined }) {
  if (angle === undefined) return <>–</>;
  const { deg, usual, estimated } = angle;
  const isOutside = usual !== null && (deg < usual[0] || deg > usual[1]);
  return <>{`${valueWords(deg, 'deg')}${estimated ? ' est.' : ''}${isOutside ? ', outside' : ''}`}</>;
}

const sources: Readonly<Record<ReportedAngles['measurements'][number]['from'], string>> = {
  session: 'measured by hand',
  markers: 'between the markers',
  stature: 'estimated from stature',
  shank: 'estimated from the length of the shank',
};

function Lengths({ measurements }: Pick<ReportedAngles, 'measurements'>) {
  return (
    <p>
      {'Lengths they rest on: '}
      {measurements
        .map(
          ({ measure, side, mm, from }) =>
            `${measureWords[measure]}, ${side}, ${valueWords(mm, 'mm')} (${sources[from]})`,
        )
        .join('; ')}
      .
    </p>
  );
}
