/** Somebody answers for the job that is shown. */
import { useEffect, useState } from 'preact/hooks';
import { isSimulated, type Recording } from '../../protocol/recording.ts';
import type { SignOff } from '../../protocol/sign-off.ts';
import { recordingDetail, signOff } from '../connection/bridge-api.ts';
import { clockWords } from '../parts/clock-words.ts';
import { tell } from '../parts/notice.ts';
import { Panel } from '../parts/panel.tsx';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { speech } from '../store/speech.ts';
import { inSentences } from '../words/said-conclusion.ts';
import { sayRuleBeside } from '../words/say-rule-beside.ts';
import { sayVerdict } from '../words/say-verdict.ts';
import { recalledSigner, rememberSigner } from './signer.ts';

interface SignPanelProps {
  readonly followed: FollowedRecording;
  readonly recording: Recording;
}

export function SignPanel({ followed, recording }: SignPanelProps) {
  const words = speech.value.wording.signOff;
  // The job that was looked at when this was opened: another one may begin while somebody writes.
  const [job] = useState(() => followed.job.peek());
  const { beginMark, fromS } = job;
  const isStill = followed.job.value.beginMark === beginMark && followed.job.value.fromS === fromS;
  const { site, equipment } = followed.sheet.value;
  const [latest, setLatest] = useState<SignOff | null>(null);
  const [{ name, licence }, setSigner] = useState(recalledSigner);
  const [remark, setRemark] = useState('');
  useEffect(() => {
    void tell(recordingDetail(recording.id)).then((detail) => {
      setLatest(detail?.signOffs.findLast((one) => one.beginMark === beginMark) ?? null);
    });
  }, [recording.id, beginMark]);
  if (isSimulated(recording)) {
    return (
      <Panel title={words.title} testId="sign-panel">
        <p>{words.noRehearsal}</p>
      </Panel>
    );
  }
  const sign = (event: Event) => {
    event.preventDefault();
    rememberSigner({ name, licence });
    const quoted = concludedNow(followed);
    const signed = { beginMark, fromS, name, licence, remark, quoted };
    void tell(signOff(recording.id, signed)).then((signed) => {
      if (signed !== null) setLatest(signed);
    });
  };
  return (
    <Panel title={words.title} testId="sign-panel">
      <p class="quiet">{words.help}</p>
      {isStill ? (
        <p>
          {[site, equipment].filter((text) => text !== '').join(', ')}
          <br />
          <b>{concludedNow(followed)}</b>
        </p>
      ) : (
        <p class="wrong" role="alert">
          {words.changed}
        </p>
      )}
      <form class="form" onSubmit={sign}>
        <div class="wide pair">
          <label>
            {words.name}
            <input
              name="name"
              autoComplete="name"
              maxLength={100}
              required
              value={name}
              onInput={(event) => setSigner({ name: event.currentTarget.value, licence })}
            />
          </label>
          <label>
            {words.licence}
            <input
              name="licence"
              maxLength={100}
              value={licence}
              onInput={(event) => setSigner({ name, licence: event.currentTarget.value })}
            />
          </label>
        </div>
        <label class="wide">
          {words.remark}
          <textarea
            name="remark"
            rows={3}
            maxLength={1000}
            value={remark}
            onInput={(event) => setRemark(event.currentTarget.value)}
          />
        </label>
        <button type="submit" class="urgent" disabled={!isStill}>
          {words.sign}
        </button>
      </form>
      {latest !== null && (
        <p role="status" data-testid="signed">
          {words.signed({ name: latest.name, at: clockWords(latest.atMs, speech.value) })}{' '}
          {words.again}
        </p>
      )}
    </Panel>
  );
}

/** What the screen concludes of the last hold; empty where there was none. */
function concludedNow(followed: FollowedRecording): string {
  const rise = followed.conclusions.value?.rise ?? null;
  if (rise === null) return '';
  const said = sayVerdict(rise, speech.value);
  const rule = followed.numbers.value?.rise?.byRule ?? null;
  const sentences = [`${said.headline}.`, ...inSentences(said)];
  if (rule !== null) {
    const { headline, name, remark } = sayRuleBeside(rule, rise.verdict, speech.value);
    sentences.push(`${headline} (${name}).`, remark);
  }
  return sentences.join(' ').trim().slice(0, 1000);
}
