/** Another job begins in the recording that goes on: from now, or from a moment that lies back. */
import { useState } from 'preact/hooks';
import { FIRST_JOB } from '../../protocol/job.ts';
import type { Recording } from '../../protocol/recording.ts';
import { addMark, enterOnSheet, takeMarkBack } from '../connection/bridge-api.ts';
import { clockWords } from '../parts/clock-words.ts';
import { tell } from '../parts/notice.ts';
import { Panel } from '../parts/panel.tsx';
import { panel } from '../parts/panels.ts';
import { PickOne } from '../parts/pick-one.tsx';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { speech } from '../store/speech.ts';
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
  const [site, setSite] = useState('');
  const [equipment, setEquipment] = useState('');
  const at = (elapsedS: number) =>
    clockWords(recording.startedAtMs + elapsedS * 1000, speech.value, true);
  const begin = async () => {
    const elapsedS = moments[chosen] ?? 0;
    const mark = await tell(addMark(recording.id, { kind: 'job_begun', elapsedS, text: '' }));
    if (mark === null) return;
    const fields = { ...(site === '' ? {} : { site }), ...(equipment === '' ? {} : { equipment }) };
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
            label={(one) => words.choices[one]({ at: at(moments[one] ?? 0) })}
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
        <button type="submit" class="urgent" disabled={offered.length === 0}>
          {words.begin}
        </button>
      </form>
      {job.beginMark !== FIRST_JOB && (
        <div class="row">
          <p>{words.begun({ at: at(job.fromS) })}</p>
          <button
            type="button"
            data-testid="join-jobs"
            onClick={() => {
              void tell(takeMarkBack(recording.id, job.beginMark)).then((done) => {
                if (done !== null) panel.value = null;
              });
            }}
          >
            {words.slip}
          </button>
        </div>
      )}
    </Panel>
  );
}
