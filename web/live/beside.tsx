/** The other sensors, near the number: what each shows, and by how much it differs. */
import type { Recording } from '../../protocol/recording.ts';
import { clockWords } from '../parts/clock-words.ts';
import { speech } from '../store/speech.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { freshness } from '../store/freshness.ts';
import type { Session } from '../store/session.ts';
import { sourceOf } from '../store/source-of.ts';
import { sayCondition } from '../words/say-condition.ts';
import { sayPressure } from '../words/say-pressure.ts';
import { saySensors } from '../words/say-sensor.ts';
import { saySideDifference } from '../words/say-side-difference.ts';

interface BesideProps {
  readonly session: Session;
  readonly followed: FollowedRecording;
  readonly recording: Recording;
}

export function Beside({ session, followed, recording }: BesideProps) {
  if (recording.sensors.length < 2) return null;
  const words = speech.value.wording.beside;
  // Asked anew with each reading that is shown.
  const watched = followed.channel.value;
  const isSaid = followed.latest.value !== null;
  const { gaugeErrorShare } = followed.sheet.value;
  const names = saySensors(recording.sensors, speech.value);
  const rows = recording.sensors.flatMap((sensor, channel) => {
    if (channel === watched || !isSaid) return [];
    return [{ id: sensor.id, ...sayBeside(session, followed, recording, channel, names) }];
  });
  const isUnsaid = gaugeErrorShare === null && rows.some(({ apart }) => apart !== null);
  const list = (
    <ul class="beside" data-testid="beside">
      {rows.map(({ id, name, shown, apart }) => (
        <li key={id}>
          <b>{name}</b> {shown}
          {apart !== null && (
            <>
              : <span data-testid={`apart-${id}`}>{apart}</span>
            </>
          )}
        </li>
      ))}
      {isUnsaid && <li class="quiet">{words.gaugesUnsaid}</li>}
    </ul>
  );
  if (rows.length <= MOST_SHOWN) return list;
  return (
    <details data-testid="others">
      <summary>{words.others({ count: rows.length })}</summary>
      {list}
    </details>
  );
}

/** More would push the verdict off the screen: they are one click away. */
const MOST_SHOWN = 2;

interface BesideWords {
  readonly name: string;
  readonly shown: string;
  /** Null where it would not be true of now. */
  readonly apart: string | null;
}

function sayBeside(
  session: Session,
  followed: FollowedRecording,
  recording: Recording,
  channel: number,
  names: readonly string[],
): BesideWords {
  const name = names[channel] ?? '';
  const words = speech.value.wording.reading;
  const stateOf = (of: number) =>
    freshness(
      session.connection.value,
      recording,
      sourceOf(recording, of, session.sources.value),
      session.record.value,
    );
  const state = stateOf(channel);
  const reading = followed.readingsOf(channel).latest();
  if (reading === null) return { name, shown: words.noneBeside, apart: null };
  if (state.kind === 'stale') {
    const since = clockWords(state.sinceMs, speech.value, true);
    return {
      name,
      shown: state.why === 'record' ? words.notKept({ since }) : words.notLive({ since }),
      apart: null,
    };
  }
  const { pressurePa } = reading;
  if (pressurePa === null || reading.condition !== 'ok')
    return { name, shown: sayCondition(reading.condition, speech.value), apart: null };
  const watched = followed.channel.value;
  const areLive = state.kind === 'live' && stateOf(watched).kind === 'live';
  const difference = areLive ? followed.differenceTo(channel) : null;
  const steps = [watched, channel].flatMap(
    (at) => recording.sensors[at]?.label?.displayStepPa ?? [],
  );
  const sides = { first: names[watched] ?? '', displayStepsPa: steps };
  const { gaugeErrorShare } = followed.sheet.value;
  const shown = sayPressure(pressurePa, speech.value);
  return {
    name,
    shown: state.kind === 'ended' ? words.lastBeside({ pressure: shown }) : shown,
    apart:
      difference === null
        ? null
        : saySideDifference({ ...sides, difference, gaugeErrorShare }, speech.value),
  };
}
