/** What was recorded: open one, or take its report or its readings away. */
import { useEffect } from 'preact/hooks';
import type { Recording } from '../../protocol/recording.ts';
import {
  csvAddress,
  listRecordings,
  reportAddress,
  reportPdfAddress,
} from '../connection/bridge-api.ts';
import { clockWords } from '../parts/clock-words.ts';
import { tell } from '../parts/notice.ts';
import { Panel } from '../parts/panel.tsx';
import { panel } from '../parts/panels.ts';
import { paper } from '../store/paper.ts';
import type { Session } from '../store/session.ts';
import { speech } from '../store/speech.ts';
import { sayRecording, sayWhenInList } from '../words/say-origin.ts';
import { saySensors } from '../words/say-sensor.ts';
import { ReadInFile } from './read-in-file.tsx';

export function RecordingsPanel({ session }: { readonly session: Session }) {
  const words = speech.value.wording.recordings;
  useEffect(() => {
    void tell(listRecordings()).then((found) => {
      for (const recording of found ?? []) session.learn(recording);
    });
  }, []);
  const recordings = [...session.recordings.value].reverse();
  return (
    <Panel title={words.title} testId="recordings-panel">
      <ReadInFile explained />
      {recordings.length === 0 && <p>{words.none}</p>}
      <ul class="recordings">
        {recordings.map((recording) => (
          <li key={recording.id} data-testid={`recording-${recording.id}`}>
            <div>
              <b>
                {sayWhenInList(
                  recording,
                  clockWords(recording.startedAtMs, speech.value),
                  speech.value,
                )}
              </b>
              <span>{sayRecording(recording, speech.value)}</span>
            </div>
            <button
              type="button"
              aria-current={recording.id === session.followed.value?.id ? 'true' : undefined}
              onClick={() => {
                session.open(recording.id, !recording.open);
                panel.value = null;
              }}
            >
              {words.open}
            </button>
            <a
              class="button"
              href={reportAddress(recording.id, speech.value)}
              target="_blank"
              rel="noopener"
            >
              {words.report}
            </a>
            <a
              class="button"
              href={reportPdfAddress(recording.id, paper.value, speech.value)}
              download
            >
              {words.reportAsPdf}
            </a>
            {csvLinks(recording).map(({ channel, text, title }) => (
              <a
                key={channel}
                class="button"
                href={csvAddress(recording, channel)}
                title={title}
                download
              >
                {text}
              </a>
            ))}
          </li>
        ))}
      </ul>
    </Panel>
  );
}

/** A file holds one curve: of several sensors each has its own. */
function csvLinks({ sensors }: Recording): { channel: number; text: string; title: string }[] {
  if (sensors.length < 2) return [{ channel: 0, text: 'CSV', title: '' }];
  return saySensors(sensors, speech.value).map((title, channel) => ({
    channel,
    text: `CSV ${channel + 1}`,
    title,
  }));
}
