/** Works a running rehearsal, and leads to the call and the reveal. */
import { REHEARSAL_RATES } from '../../protocol/api.ts';
import type { Recording } from '../../protocol/recording.ts';
import type { SourceState } from '../../protocol/source-state.ts';
import { steerRehearsal } from '../connection/bridge-api.ts';
import { tell } from '../parts/notice.ts';
import { panel } from '../parts/panels.ts';
import { CAUSE_WORDS } from '../words/say-call.ts';
import { atHand } from './at-hand.ts';
import { rateFrom, rateWords } from './rates.ts';

interface RehearsalBarProps {
  readonly recording: Recording;
  readonly source: SourceState | null;
}

export function RehearsalBar({ recording, source }: RehearsalBarProps) {
  const { call, reveal } = atHand(recording);
  return (
    <section class="rehearsal" aria-label="Rehearsal" data-testid="rehearsal-bar">
      <strong>Rehearsal, not a job</strong>
      {recording.open ? <Pace source={source} /> : reveal === null && <span>It has ended.</span>}
      {reveal !== null && (
        <p data-testid="revealed" role="status">
          <i>It was:</i> {CAUSE_WORDS[reveal.cause].name}
        </p>
      )}
      <button
        type="button"
        class={recording.open ? '' : 'urgent'}
        data-testid="call"
        onClick={() => (panel.value = call === null && reveal === null ? 'call' : 'reveal')}
      >
        {reveal !== null ? 'Look back' : call === null ? 'I know what it is' : 'Reveal'}
      </button>
      {recording.open ? (
        <button type="button" data-testid="more" onClick={() => (panel.value = 'rehearsal')}>
          More
        </button>
      ) : (
        <button type="button" data-testid="another" onClick={() => (panel.value = 'rehearse')}>
          Another one
        </button>
      )}
    </section>
  );
}

function Pace({ source }: { readonly source: SourceState | null }) {
  const paused = source?.phase === 'paused';
  return (
    <>
      <label>
        <span>Speed</span>{' '}
        <select
          data-testid="rate"
          value={rateWords(source?.clockRate ?? 1)}
          onChange={(event) =>
            void tell(steerRehearsal({ rate: rateFrom(event.currentTarget.value) }))
          }
        >
          {REHEARSAL_RATES.map((rate) => (
            <option key={rate} value={rateWords(rate)}>
              {rateWords(rate)}
            </option>
          ))}
        </select>
      </label>
      <button
        type="button"
        data-testid="pause"
        onClick={() => void tell(steerRehearsal({ paused: !paused }))}
      >
        {paused ? 'Go on' : 'Pause'}
      </button>
      <button
        type="button"
        data-testid="jump"
        aria-label="On to the next event"
        onClick={() => void tell(steerRehearsal({ jump: true }))}
      >
        Next event
      </button>
    </>
  );
}
