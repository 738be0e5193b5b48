/** The trainee says what it is and how sure they are; before that nothing is revealed. */
import { useState } from 'preact/hooks';
import type { RehearsalCause } from '../../protocol/api.ts';
import type { Recording } from '../../protocol/recording.ts';
import { callCause } from '../connection/bridge-api.ts';
import { tell } from '../parts/notice.ts';
import { Panel } from '../parts/panel.tsx';
import { panel } from '../parts/panels.ts';
import { keepRehearsed, rehearsedOf, rememberTrainee, trainee } from '../store/rehearsed.ts';
import { speech } from '../store/speech.ts';
import { sayCall } from '../words/say-reveal.ts';
import { CauseChoice } from './cause-choice.tsx';
import { SureChoice } from './sure-choice.tsx';
import { unveil } from './unveil.ts';

/** As likely as not. */
const SURE_AT_FIRST = 50;

export function CallPanel({ recording }: { readonly recording: Recording }) {
  const words = speech.value.wording.call;
  const { call } = rehearsedOf(recording);
  return call === null ? (
    <Panel title={words.title} testId="call-panel">
      <CallForm recording={recording} />
      <div class="quieter">
        <button
          type="button"
          data-testid="without-call"
          onClick={() => void unveil(recording, { withoutCall: true })}
        >
          {words.without}
        </button>
        <span class="quiet">{words.withoutWhy}</span>
      </div>
    </Panel>
  ) : (
    <Panel title={words.made} testId="called-panel">
      <p class="verdict-line">{sayCall(call, speech.value)}</p>
      <p class="quiet">{words.madeWhy}</p>
      <div class="row">
        <button
          type="button"
          class="urgent"
          data-testid="reveal-now"
          onClick={() => void unveil(recording, {})}
        >
          {words.reveal}
        </button>
        <button type="button" data-testid="go-on-first" onClick={() => (panel.value = null)}>
          {words.goOn}
        </button>
      </div>
    </Panel>
  );
}

function CallForm({ recording }: { readonly recording: Recording }) {
  const words = speech.value.wording.call;
  const [name, setName] = useState(() => trainee.peek());
  const [cause, setCause] = useState<RehearsalCause | null>(null);
  const [surePercent, setSurePercent] = useState(SURE_AT_FIRST);
  const [busy, setBusy] = useState(false);
  const make = (event: Event) => {
    event.preventDefault();
    if (cause === null || busy) return;
    setBusy(true);
    rememberTrainee(name);
    void tell(callCause({ trainee: trainee.peek(), cause, surePercent })).then((call) => {
      if (call !== null) keepRehearsed(recording, { call });
      else panel.value = null;
    });
  };
  return (
    <form class="call" onSubmit={make}>
      <p class="quiet">{words.help}</p>
      <CauseChoice chosen={cause} pick={setCause} />
      <SureChoice percent={surePercent} set={setSurePercent} />
      <label class="stacked">
        {words.trainee}
        <input
          name="trainee"
          autoComplete="off"
          required
          pattern=".*\S.*"
          maxLength={60}
          value={name}
          onInput={(event) => setName(event.currentTarget.value)}
        />
      </label>
      <button type="submit" class="urgent" disabled={busy} data-testid="make-call">
        {words.make}
      </button>
    </form>
  );
}
