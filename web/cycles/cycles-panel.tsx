/** Evacuations with nitrogen between them: what has been done, what comes next, and the plan. */
import type { Recording } from '../../protocol/recording.ts';
import { setMark } from '../live/set-mark.ts';
import { tell } from '../parts/notice.ts';
import { Panel } from '../parts/panel.tsx';
import type { OpenSheet } from '../sheet/open-sheet.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { speech } from '../store/speech.ts';
import {
  sayCycle,
  sayCyclesDone,
  sayNextCycle,
  sayRestedFill,
  sayTrend,
} from '../words/say-cycles.ts';
import { PlanForm } from './plan-form.tsx';

interface ShownJob {
  readonly followed: FollowedRecording;
  readonly recording: Recording;
}

interface CyclesPanelProps {
  readonly open: OpenSheet;
  /** Null: the plan is made before there is a reading. */
  readonly job: ShownJob | null;
}

export function CyclesPanel({ open, job }: CyclesPanelProps) {
  const words = speech.value.wording.cycles;
  return (
    <Panel title={words.title} testId="cycles-panel">
      {open.above}
      {job !== null && <Done followed={job.followed} />}
      {job !== null && canMark(job.recording) && <AskBreaks {...job} />}
      <p class="quiet">{words.caution}</p>
      <PlanForm open={open} />
    </Panel>
  );
}

/** In a rehearsal the rig marks what is done to it; of what is over nothing is marked any more. */
function canMark({ open, origin }: Recording): boolean {
  return open && origin !== 'rehearsal';
}

function AskBreaks({ followed, recording }: ShownJob) {
  const fills = followed.cycles.value?.cycles.flatMap(({ restedFills }) => restedFills) ?? [];
  return (
    <>
      {fills.map((fill) => (
        <p key={fill.atS} data-testid="ask-break">
          {sayRestedFill(fill, speech.value)}{' '}
          <button
            type="button"
            data-testid="mark-break"
            onClick={() => void tell(setMark(recording, 'nitrogen_break', fill.atS))}
          >
            {speech.value.wording.cycles.markBreak}
          </button>
        </p>
      ))}
    </>
  );
}

function Done({ followed }: Pick<ShownJob, 'followed'>) {
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
