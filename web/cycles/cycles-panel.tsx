/** Evacuations with nitrogen between them: what has been done, what comes next, and the plan. */
import { Panel } from '../parts/panel.tsx';
import type { OpenSheet } from '../sheet/open-sheet.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { speech } from '../store/speech.ts';
import { sayCycle, sayCyclesDone, sayNextCycle, sayTrend } from '../words/say-cycles.ts';
import { PlanForm } from './plan-form.tsx';

interface CyclesPanelProps {
  readonly open: OpenSheet;
  /** Null: the plan is made before there is a reading. */
  readonly followed: FollowedRecording | null;
}

export function CyclesPanel({ open, followed }: CyclesPanelProps) {
  const words = speech.value.wording.cycles;
  return (
    <Panel title={words.title} testId="cycles-panel">
      {open.above}
      {followed !== null && <Done followed={followed} />}
      <p class="quiet">{words.caution}</p>
      <PlanForm open={open} />
    </Panel>
  );
}

function Done({ followed }: { readonly followed: FollowedRecording }) {
  const words = speech.value.wording.cycles;
  const told = followed.cycles.value;
  if (told === null || told.cycles.length === 0) {
    return (
      <p data-testid="cycles-next">
        {told?.next ? sayNextCycle(told.next, speech.value) : words.noCycles}
      </p>
    );
  }
  return (
    <div class="cycles-told" role="status" data-testid="cycles-told">
      <h2 data-testid="cycles-next">
        {told.next === null ? words.noPlan : sayNextCycle(told.next, speech.value)}
      </h2>
      <ol class="recordings">
        {told.cycles.map((cycle, at) => (
          <li key={cycle.fromS}>
            <div>
              <b>{words.number({ number: String(at + 1) })}</b>
              <span>{sayCycle(cycle, speech.value)}</span>
            </div>
          </li>
        ))}
      </ol>
      <p data-testid="moisture-trend">{sayTrend(told.trend, speech.value).join(' ')}</p>
      {sayCyclesDone(told, speech.value).map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
    </div>
  );
}
