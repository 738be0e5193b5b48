/** Another job begins in the recording that goes on: from now, or from a moment that lies back. */
import { useState } from 'preact/hooks';
import { FIRST_JOB, GEAR } from '../../protocol/job.ts';
import { DEFAULT_SHEET, type Sheet } from '../../protocol/sheet.ts';
import type { Recording } from '../../protocol/recording.ts';
import { addMark, enterOnSheet, takeMarkBack } from '../connection/bridge-api.ts';
import { clockWords } from '../parts/clock-words.ts';
import { tell } from '../parts/notice.ts';
import { Panel } from '../parts/panel.tsx';
import { panel } from '../parts/panels.ts';
import { PickOne } from '../parts/pick-one.tsx';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { speech } from '../store/speech.ts';
import { sayCarriedAlong } from '../words/say-job.ts';
import { BEGINNINGS, jobBeginnings } from './job-begins.ts';

interface NewJobPanelProps {
  readonly followed: FollowedRecording;
  readonly recording: Recording;
}

export function NewJobPanel({ followed, recording }: NewJobPanelProps) {
  const { newJob: words, sheet } = speech.value.wording;
  // As it stood when the panel was opened: while one reads, now moves on.
  const [moments] = useState(() =>
    jobBeginnings(
      followed.job.peek(),
      followed.readings,
      followed.conclusions.peek()?.pullDownS ?? null,
    ),
  );
  const offered = BEGINNINGS.filter((one) => moments[one] !== undefined);
  const [chosen, setChosen] = useState(offered[0] ?? 'now');
  /** The disk may be slow: pressed twice it would be two jobs. */
  const [isAsked, setAsked] = useState(false);
  const [isJoining, setJoining] = useState(false);
  const [site, setSite] = useState('');
  const [equipment, setEquipment] = useState('');
  const [gear] = useState(() => gearOn(followed.sheet.peek()));
  const at = (elapsedS: number) =>
    clockWords(recording.startedAtMs + elapsedS * 1000, speech.value, true);
  const begin = async () => {
    setAsked(true);
    const elapsedS = moments[chosen] ?? 0;
    const mark = await tell(addMark(recording.id, { kind: 'job_begun', elapsedS, text: '' }));
    if (mark === null) {
      setAsked(false);
      return;
    }
    followed.goOnTo(mark.id);
    const fields = {
      ...gear,
      ...(site === '' ? {} : { site }),
      ...(equipment === '' ? {} : { equipment }),
    };
    const isEntered =
      Object.keys(fields).length === 0 ||
      (await tell(enterOnSheet(recording.id, { elapsedS, fields }))) !== null;
    if (isEntered) panel.value = null;
  };
  const job = followed.job.value;
  return (
    <Panel title={words.title} testId="new-job-panel">
      <p class="quiet">{words.help}</p>
      <form
        class="form"
        onSubmit={(event) => {
          event.preventDefault();
          void begin();
        }}
      >
        <div class="wide">
          <PickOne
            legend={words.begins}
            name="job-begins"
            options={offered}
            chosen={chosen}
            label={(one) =>
              words.choices[one === 'now' && !recording.open ? 'last' : one]({
                at: at(moments[one] ?? 0),
              })
            }
            pick={setChosen}
          />
        </div>
        <div class="wide pair">
          <label>
            {sheet.names.site}
            <input
              name="site"
              maxLength={200}
              value={site}
              onInput={(event) => setSite(event.currentTarget.value)}
            />
          </label>
          <label>
            {sheet.names.equipment}
            <input
              name="equipment"
              maxLength={200}
              value={equipment}
              onInput={(event) => setEquipment(event.currentTarget.value)}
            />
          </label>
        </div>
        <p class="wide quiet" data-testid="carried-along">
          {sayCarriedAlong(gear, speech.value)}
        </p>
        <button type="submit" class="urgent" disabled={offered.length === 0 || isAsked}>
          {words.begin}
        </button>
      </form>
      {job.beginMark !== FIRST_JOB && (
        <div class="row">
          <p>
            {words.begun({ at: at(job.fromS) })} {isJoining && words.joinHelp}
          </p>
          <button
            type="button"
            data-testid="join-jobs"
            onClick={() => {
              if (!isJoining) {
                setJoining(true);
                return;
              }
              void tell(takeMarkBack(recording.id, job.beginMark)).then(() => {
                // What went wrong shows on the page.
                panel.value = null;
              });
            }}
          >
            {isJoining ? words.reallyJoin : words.join}
          </button>
        </div>
      )}
    </Panel>
  );
}

/** What was entered of it: nobody has to say it again. */
function gearOn(sheet: Sheet): Partial<Sheet> {
  const entered = Object.entries(sheet).filter(([field, value]) =>
    GEAR.some((own) => own === field && value !== DEFAULT_SHEET[own]),
  );
  return Object.fromEntries(entered);
}
