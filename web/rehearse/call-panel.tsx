/** The trainee says what it is, and how sure they are. Only then is it revealed. */
import { useState } from 'preact/hooks';
import { REHEARSAL_CAUSES, type RehearsalCause } from '../../protocol/api.ts';
import type { Recording } from '../../protocol/recording.ts';
import { callRehearsal, revealRehearsal } from '../connection/bridge-api.ts';
import { tell } from '../parts/notice.ts';
import { Panel } from '../parts/panel.tsx';
import { panel } from '../parts/panels.ts';
import { CAUSE_WORDS } from '../words/say-call.ts';
import { learn } from './at-hand.ts';
import { rememberTrainee, trainee } from './trainee.ts';

export function CallPanel({ recording }: { readonly recording: Recording }) {
  const [name, setName] = useState(trainee);
  const [cause, setCause] = useState<RehearsalCause | null>(null);
  const [surePercent, setSure] = useState(60);
  const makeCall = async (event: Event) => {
    event.preventDefault();
    if (cause === null || name.trim() === '') return;
    rememberTrainee(name.trim());
    const call = await tell(callRehearsal({ trainee: name.trim(), cause, surePercent }));
    if (call === null) return;
    learn(recording, { call });
    panel.value = 'reveal';
  };
  const revealOnly = async () => {
    const reveal = await tell(revealRehearsal({ withoutCall: true }));
    if (reveal === null) return;
    learn(recording, { reveal });
    panel.value = 'reveal';
  };
  return (
    <Panel title="What is it?" testId="call-panel">
      <form class="call" onSubmit={(event) => void makeCall(event)}>
        <fieldset class="causes-to-call">
          <legend>One of these; the strongest, where there are two</legend>
          {REHEARSAL_CAUSES.map((each) => (
            <label key={each}>
              <input
                type="radio"
                name="cause"
                value={each}
                data-testid={`cause-${each}`}
                checked={each === cause}
                onChange={() => setCause(each)}
              />
              <span>
                <b>{CAUSE_WORDS[each].name}</b> <i>{CAUSE_WORDS[each].sign}</i>
              </span>
            </label>
          ))}
        </fieldset>
        <label class="sure">
          <span>
            How sure: <b>{surePercent} %</b>
          </span>
          <input
            type="range"
            name="sure"
            min={1}
            max={100}
            value={surePercent}
            onInput={(event) => setSure(Number(event.currentTarget.value))}
          />
        </label>
        <label class="sure">
          Who says so
          <input
            name="trainee"
            maxLength={60}
            required
            autoComplete="off"
            value={name}
            onInput={(event) => setName(event.currentTarget.value)}
          />
        </label>
        <button
          type="submit"
          class="urgent"
          data-testid="make-call"
          disabled={cause === null || name.trim() === ''}
        >
          This is it
        </button>
      </form>
      <p class="quiet">
        A call is kept with the rehearsal, under that name, on this computer. It can’t be changed.
      </p>
      <button type="button" data-testid="without-call" onClick={() => void revealOnly()}>
        Tell me without a call
      </button>
    </Panel>
  );
}
