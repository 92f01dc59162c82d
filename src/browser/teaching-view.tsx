import { useState } from 'preact/hooks';
import type { Report } from '../core/report/report.ts';
import { ruleName } from '../core/report/rule-name.ts';
import type { LimitShares } from './change-limits.ts';

interface TeachingViewProps {
  readonly report: Report;
  readonly limits: LimitShares;
  readonly change: (limits: LimitShares) => void;
}

const shares = { min: 25, max: 300, step: 5 } as const;

/** Other limits, to see what they do to the verdict. */
export function TeachingView({ report, limits, change }: TeachingViewProps) {
  const judged = report.rules.filter(({ value }) => value !== null);
  const first = judged.find(({ status }) => status === 'fail' || status === 'borderline') ?? judged[0];
  const [chosen, choose] = useState(first?.id ?? '');
  const rule = judged.find(({ id }) => id === chosen) ?? first;
  return (
    <section class="teaching" aria-labelledby="teaching-heading">
      <h2 id="teaching-heading">Teaching view: what other limits would find</h2>
      <p>Change how wide the limits are, as a share of what the laboratory's set allows, and watch the verdict.</p>
      <Share name="All checks" share={limits.all} set={(all) => change({ all, rules: limits.rules })} />
      {rule === undefined ? null : (
        <>
          <label class="which">
            {'One check '}
            <select value={rule.id} onChange={({ currentTarget }) => choose(currentTarget.value)}>
              {judged.map((one) => (
                <option value={one.id}>{ruleName(one)}</option>
              ))}
            </select>
          </label>
          <Share
            name="This check"
            share={limits.rules[rule.id] ?? limits.all}
            set={(share) => change({ all: limits.all, rules: { ...limits.rules, [rule.id]: share } })}
          />
        </>
      )}
      <button type="button" onClick={() => change({ all: 1, rules: {} })}>
        Back to the laboratory's limits
      </button>
    </section>
  );
}

interface ShareProps {
  readonly name: string;
  readonly share: number;
  readonly set: (share: number) => void;
}

function Share({ name, share, set }: ShareProps) {
  const percent = Math.round(share * 100);
  return (
    <label class="share">
      <span>{name}</span>
      <input
        type="range"
        {...shares}
        value={percent}
        onInput={({ currentTarget }) => set(Number(currentTarget.value) / 100)}
      />
      <output>{`${percent} %`}</output>
    </label>
  );
}
