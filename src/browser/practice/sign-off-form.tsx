import { useState } from 'preact/hooks';
import type { TraineeRecord } from '../../core/practice/trainee-record.ts';

/** What is filled in; who is signed off and on what day the page knows. */
export interface SignedOff {
  readonly landmark: string;
  readonly signer: string;
  readonly due: string;
  readonly reason: string;
}

interface SignOffFormProps {
  readonly record: TraineeRecord;
  /** Failures are sentences. */
  readonly sign: (signed: SignedOff) => Promise<void>;
}

const empty: SignedOff = { landmark: '', signer: '', due: '', reason: '' };

/** Somebody else than the trainee stands for a landmark, until a day. */
export function SignOffForm({ record, sign }: SignOffFormProps) {
  const [filled, fill] = useState(empty);
  const [said, say] = useState('');
  const [isBusy, setBusy] = useState(false);
  const isWhole = filled.landmark !== '' && /^\S{1,64}$/.test(filled.signer.trim()) && filled.due !== '';
  async function write(): Promise<void> {
    setBusy(true);
    try {
      await sign({ ...filled, signer: filled.signer.trim(), reason: filled.reason.trim() });
      say('Signed off; it stands in the record above.');
      fill({ ...empty, signer: filled.signer, due: filled.due });
    } catch (error) {
      say(error instanceof Error ? error.message : String(error));
    } finally {
      setBusy(false);
    }
  }
  return (
    <form
      class="sign-off"
      aria-labelledby="sign-off-heading"
      onSubmit={(event) => {
        event.preventDefault();
        if (isWhole && !isBusy) void write();
      }}
    >
      <h2 id="sign-off-heading">Sign off a landmark</h2>
      <div class="start-with">
        <label>
          Landmark
          <select
            name="landmark"
            value={filled.landmark}
            onChange={({ currentTarget }) => fill({ ...filled, landmark: currentTarget.value })}
          >
            <option value="">choose</option>
            {record.landmarks.map(({ landmark, called }) => (
              <option value={landmark}>{called}</option>
            ))}
          </select>
        </label>
        <label>
          Code of who signs (never a name)
          <input
            type="text"
            name="signer"
            autocomplete="off"
            value={filled.signer}
            onInput={({ currentTarget }) => fill({ ...filled, signer: currentTarget.value })}
          />
        </label>
        <label>
          Due again on
          <input
            type="date"
            name="due"
            value={filled.due}
            onInput={({ currentTarget }) => fill({ ...filled, due: currentTarget.value })}
          />
        </label>
        <label class="reason">
          Reason, where the answers are too few or too often wrong (no names)
          <input
            type="text"
            name="reason"
            maxLength={200}
            autocomplete="off"
            value={filled.reason}
            onInput={({ currentTarget }) => fill({ ...filled, reason: currentTarget.value })}
          />
        </label>
      </div>
      <button type="submit" class="primary" disabled={!isWhole || isBusy}>
        Sign off
      </button>
      <p role="status">{said}</p>
    </form>
  );
}
