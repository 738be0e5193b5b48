/** Works a running rehearsal, and shows what it was once that is revealed. */
import { REHEARSAL_RATES } from '../../protocol/api.ts';
import type { Recording } from '../../protocol/recording.ts';
import type { SourceState } from '../../protocol/source-state.ts';
import { revealRehearsal, steerRehearsal } from '../connection/bridge-api.ts';
import { tell } from '../parts/notice.ts';
import { panel } from '../parts/panels.ts';
import { choices } from '../store/choices.ts';
import { sayReveal } from '../words/say-reveal.ts';
import { lastReveal } from './last-reveal.ts';
import { rateFrom, rateWords } from './rates.ts';

interface RehearsalBarProps {
  readonly recording: Recording;
  readonly source: SourceState | null;
}

export function RehearsalBar({ recording, source }: RehearsalBarProps) {
  const reveal = lastReveal.value;
  const running = recording.open;
  const paused = source?.phase === 'paused';
  return (
    <section class="rehearsal" aria-label="Rehearsal" data-testid="rehearsal-bar">
      <strong>Rehearsal, not a job</strong>
      {running && (
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
            data-testid="stop"
            onClick={() => void tell(steerRehearsal({ stop: true }))}
          >
            Stop
          </button>
        </>
      )}
      {!running && reveal === null && <span>It has ended.</span>}
      {reveal === null && (
        <button
          type="button"
          data-testid="reveal"
          onClick={() =>
            void tell(revealRehearsal()).then((told) => {
              if (told !== null) lastReveal.value = told;
            })
          }
        >
          {running ? 'End and reveal' : 'Reveal the cause'}
        </button>
      )}
      {!running && reveal !== null && (
        <p data-testid="revealed" role="status">
          <i>It was:</i> {sayReveal(reveal, choices.value.pressure)}
        </p>
      )}
      {!running && (
        <button type="button" data-testid="another" onClick={() => (panel.value = 'rehearse')}>
          Another one
        </button>
      )}
    </section>
  );
}
