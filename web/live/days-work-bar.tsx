/** The day's work along the bottom, and where in it one is. Each step opens its cautions. */
import type { Recording } from '../../protocol/recording.ts';
import { csvAddress, reportPdfAddress } from '../connection/bridge-api.ts';
import { clockWords } from '../parts/clock-words.ts';
import { panel } from '../parts/panels.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { paper } from '../store/paper.ts';
import { speech } from '../store/speech.ts';
import { daysWork, type WorkStep } from '../steps/days-work.ts';
import { sayDuration } from '../words/say-duration.ts';

interface DaysWorkBarProps {
  readonly followed: FollowedRecording;
  readonly recording: Recording;
}

export function DaysWorkBar({ followed, recording }: DaysWorkBarProps) {
  const words = speech.value.wording.work;
  const steps = daysWork(followed.conclusions.value, followed.sheet.value);
  return (
    <footer class="work" aria-label={words.name}>
      {steps.map((step) => (
        <button
          key={step.place}
          type="button"
          class={`work-step work-${step.state}`}
          data-testid={`work-${step.place}`}
          aria-current={step.state === 'now' ? 'step' : undefined}
          onClick={() => (panel.value = { work: step.place })}
        >
          <b>{words.places[step.place]}</b>
          <span>{beneath(step, followed, recording)}</span>
        </button>
      ))}
      <a
        class="work-step"
        data-testid="pdf"
        href={reportPdfAddress(
          { recordingId: recording.id, beginMark: followed.job.value.beginMark },
          paper.value,
          speech.value,
        )}
        download
      >
        <b>{words.report}</b>
        <span>{words.asPdf}</span>
      </a>
      <a
        class="work-step"
        data-testid="csv"
        href={csvAddress(recording, followed.channel.value)}
        download
      >
        <b>{words.readings}</b>
        <span>{words.asCsv}</span>
      </a>
    </footer>
  );
}

function beneath(step: WorkStep, followed: FollowedRecording, recording: Recording): string {
  const { work: words, sheet: names } = speech.value.wording;
  const sheet = followed.sheet.value;
  if (step.place === 'hook_up' && sheet.sensorSees !== 'unknown') {
    return names.views[sheet.sensorSees];
  }
  if (step.state === 'now' && step.sinceS !== null && step.place !== 'hook_up') {
    // A rehearsal's clock may run a hundred times as fast as the one on the wall, and a file does not say
    // what time of day it was: how long is said, since a moment like 13:16 would be read as a time of day.
    if (recording.origin === 'rehearsal' || recording.origin === 'import') {
      const latestS = followed.latest.value?.elapsedS ?? step.sinceS;
      return words.lasting({ length: sayDuration(latestS - step.sinceS) });
    }
    return words.since({
      since: clockWords(recording.startedAtMs + step.sinceS * 1000, speech.value),
    });
  }
  if (step.place === 'rise' && step.state === 'before') {
    return words.holdOf({ length: `${Math.round(sheet.holdS / 60)} min` });
  }
  return words.states[step.state];
}
