import type { Report, ReportedPlates } from '../../core/report/report.ts';
import { fixed } from '../../core/report/rounding.ts';
import { sentence } from '../../core/report/sentence.ts';
import { Heading, type Level } from '../heading.tsx';

type Plate = ReportedPlates['each'][number];

/** What each force plate carries, under which foot; what could not be read says why. */
export function Plates({ report, id, level }: { readonly report: Report; readonly id: string; readonly level: Level }) {
  // A report of before force plates were read has no such field.
  const plates: ReportedPlates | null = report.plates ?? null;
  if (plates === null) return null;
  const { each, massKg, recordedMassKg, loadShareReason } = plates;
  const recorded = recordedMassKg === null ? 'no mass is recorded' : `recorded ${fixed(1, recordedMassKg)} kg`;
  return (
    <section aria-labelledby={`${id}-heading`}>
      <Heading level={level} id={`${id}-heading`}>
        {`Force plates (${each.filter(({ upwardN }) => upwardN !== null).length} of ${each.length} could be read)`}
      </Heading>
      <table>
        <thead>
          <tr>
            <th scope="col">Plate</th>
            <th scope="col">Upward force</th>
            <th scope="col">Under</th>
            <th scope="col">Presses</th>
          </tr>
        </thead>
        <tbody>
          {each.map((plate) => (
            <tr>
              <th scope="row">{`Plate ${plate.number}`}</th>
              <td class="figure">{plate.upwardN === null ? '–' : `${fixed(0, plate.upwardN)} N`}</td>
              <td>{plate.upwardN === null ? sentence(plate.reason) : feetOn(plate)}</td>
              <td>{pressesAt(plate)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {massKg === null ? null : <p>{`Together they carry ${fixed(1, massKg)} kg; ${recorded}.`}</p>}
      {loadShareReason === '' ? null : <p>{sentence(`No share of each foot: ${loadShareReason}`)}</p>}
    </section>
  );
}

function feetOn({ feet }: Plate): string {
  return feet.length === 0 ? 'no foot' : feet.length === 1 ? `${feet[0]} foot` : 'both feet';
}

function pressesAt({ outsideFootMm }: Plate): string {
  if (outsideFootMm === null) return '–';
  return outsideFootMm === 0 ? 'inside the foot' : `${fixed(0, outsideFootMm)} mm outside the foot`;
}
