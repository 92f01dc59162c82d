import { skinPen } from '../../core/report/advice.ts';
import type { Move, MoveAction, Report } from '../../core/report/report.ts';
import { sentence } from '../../core/report/sentence.ts';
import { after, doubtAbout, settledElsewhere } from '../../core/report/step-words.ts';
import { swapsToRelabel } from '../../core/report/text-headline.ts';
import { RegionPicture } from '../figure/region-picture.tsx';
import { RelabelPicture } from '../figure/relabel-picture.tsx';
import { StancePicture } from '../figure/stance-picture.tsx';
import { Heading, type Level } from '../heading.tsx';
import { distanceWords, giveOrTake, markerWords } from '../words.ts';

const actions: Readonly<Record<MoveAction, string>> = {
  move: 'Move',
  'palpate-again': 'Palpate again',
  'measure-again': 'Measure again',
  'stand-again': 'Stand again',
  relabel: 'Correct the labels',
};

interface StepProps {
  readonly report: Report;
  readonly move: Move;
  readonly id: string;
  readonly level: Level;
}

/** One step: what to do in letters to be read from afar, with its picture; why and how to confirm it below. */
export function Step({ report, move, id, level }: StepProps) {
  const picture = <StepPicture report={report} move={move} id={`${id}-picture`} />;
  return (
    <li class={move.action === 'measure-again' ? 'step plain' : 'step'} aria-labelledby={`${id}-what`}>
      <div class="step-words">
        <p class="action">
          <span class="number">{move.step}</span>
          {actionWords(move)}
        </p>
        {hasPlace(move) ? (
          <Order move={move} id={id} level={level} />
        ) : (
          <Heading level={level} class="instruction" id={`${id}-what`}>
            {withoutAction(move)}
          </Heading>
        )}
        {settledElsewhere(move) ? <p class="first-look">{sentence(move.tie!.says)}</p> : null}
        {after(move) === '' ? null : <p class="after">{after(move)}</p>}
      </div>
      {picture}
      <StepNotes report={report} move={move} />
    </li>
  );
}

function hasPlace(move: Move): boolean {
  return move.marker !== undefined && move.mm !== undefined;
}

function actionWords({ action, turnDeg }: Move): string {
  return turnDeg === undefined ? actions[action] : 'Turn';
}

/** The instruction without the words that stand above it already. */
function withoutAction(move: Move): string {
  const lead = `${actionWords(move)}: `;
  return sentence(move.instruction.startsWith(lead) ? move.instruction.slice(lead.length) : move.instruction);
}

function StepPicture({ report, move, id }: { readonly report: Report; readonly move: Move; readonly id: string }) {
  if (move.action === 'relabel') return <RelabelPicture report={report} move={move} id={id} />;
  if (move.action === 'stand-again') return <StancePicture report={report} id={id} />;
  return <RegionPicture report={report} move={move} id={id} />;
}

function StepNotes({ report, move }: { readonly report: Report; readonly move: Move }) {
  const doubt = doubtAbout(move);
  const swap = move.action === 'relabel' ? swapsToRelabel(report) : [];
  const notes: readonly (readonly [string, string])[] = [
    ...swap.map(({ message, remedy }) => ['Found', `${sentence(message)} ${sentence(remedy)}`] as const),
    ['Before', hasPlace(move) ? skinPen : ''],
    ['Found', move.finding === undefined ? '' : sentence(move.finding)],
    ['Why', move.why === '' ? '' : sentence(move.why)],
    ['At stake', move.changes === undefined ? '' : sentence(move.changes.says)],
    ['Confirm', move.confirmBy === '' ? '' : sentence(move.confirmBy)],
    ['How sure', doubt],
  ];
  return (
    <dl class="step-notes">
      {notes
        .filter(([, text]) => text !== '')
        .map(([term, text]) => (
          <div class={term === 'Found' ? 'found' : undefined}>
            <dt>{term}</dt>
            <dd>{text}</dd>
          </div>
        ))}
    </dl>
  );
}

/** Which marker, how far, which way: three lines, the middle one largest. */
function Order({ move, id, level }: { readonly move: Move; readonly id: string; readonly level: Level }) {
  const ways = move.ways ?? [{ mm: Math.round(move.distanceMm ?? 0), along: move.along ?? '' }];
  const isOrder = move.action === 'move';
  const loose = giveOrTake(move);
  const expects = move.bothSides
    ? `nothing tells which side is off; on the ${move.side} the geometry expects it`
    : 'the geometry expects it';
  return (
    <Heading level={level} class="order" id={`${id}-what`}>
      <span class="who">{`the patient's ${markerWords(move)}`}</span>
      {isOrder ? null : <span class="expects">{expects}</span>}
      {move.turnDeg === undefined ? (
        ways.map(({ mm, along }) => (
          <span class="way">
            <b>{`${isOrder ? '' : 'about '}${mm} mm`}</b> {along}
          </span>
        ))
      ) : (
        <span class="way">
          <b>{`${Math.round(Math.abs(move.turnDeg))}°`}</b> {move.along}
        </span>
      )}
      {move.turnDeg === undefined || move.tipMm === undefined ? null : (
        <span class="expects">{`its tip goes ${distanceWords(move)}${move.baseMm === undefined ? '' : `, its base ${Math.max(1, Math.round(move.baseMm))} mm`}`}</span>
      )}
      {isOrder ? null : (
        <>
          {loose === '' ? null : <span class="expects">{loose}</span>}
          <span class="expects">On the bone, it stays: record that.</span>
        </>
      )}
    </Heading>
  );
}
