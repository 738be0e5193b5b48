/** On another screen, before anything of a job is shown: the code, a name, and in. */
import { useState } from 'preact/hooks';
import { pairThisScreen } from '../connection/sharing-api.ts';
import { notice, tell } from '../parts/notice.ts';
import { speech } from '../store/speech.ts';
import { sayFailure } from '../words/say-failure.ts';

/** Of a phone, one edge is shorter than this, in CSS pixels. A setting of ours. */
const PHONE_BELOW_PX = 600;

/** @param scanned the secret from the address, '' where it was typed */
export function PairScreen({ scanned }: { readonly scanned: string }) {
  const { pairing: words } = speech.value.wording.secondScreen;
  const [secret, setSecret] = useState(scanned);
  const [code, setCode] = useState('');
  const [name, setName] = useState(usualName(words.names));
  const [isAsking, setAsking] = useState(false);
  const pair = async (event: Event) => {
    event.preventDefault();
    setAsking(true);
    const paired = await tell(pairThisScreen({ code: secret === '' ? code : secret, name }));
    setAsking(false);
    if (paired !== null) window.location.reload();
    // What was scanned may be over by now; another one can be typed as well as scanned.
    else setSecret('');
  };
  return (
    <main class="pair-screen" data-testid="pair-screen">
      <span class="name">Ebbline</span>
      <h1>{words.title}</h1>
      <p>{secret === '' ? words.whereCode : words.scanned}</p>
      <form class="pair-form" onSubmit={(event) => void pair(event)}>
        {secret === '' && (
          <label>
            {words.code}
            <input
              name="code"
              required
              maxLength={20}
              autocomplete="off"
              autocapitalize="characters"
              spellcheck={false}
              value={code}
              onInput={(event) => setCode(event.currentTarget.value)}
            />
          </label>
        )}
        <label>
          {words.name}
          <input
            name="name"
            required
            maxLength={60}
            autocomplete="off"
            value={name}
            onInput={(event) => setName(event.currentTarget.value)}
          />
        </label>
        <button type="submit" class="urgent" disabled={isAsking} data-testid="pair">
          {words.go}
        </button>
      </form>
      {notice.value !== null && (
        <p class="wrong" role="alert" data-testid="notice">
          {sayFailure(notice.value, speech.value)}
        </p>
      )}
      <p class="quiet">{words.compare}</p>
      <p class="quiet">{words.cost}</p>
    </main>
  );
}

function usualName(names: { readonly phone: string; readonly other: string }): string {
  const { width, height } = window.screen;
  return Math.min(width, height) < PHONE_BELOW_PX ? names.phone : names.other;
}
