/** Where the page's parts meet: connection, store, alerts and screens. */
import './first.ts';
import { effect } from '@preact/signals';
import { render } from 'preact';
import '@fontsource/barlow-semi-condensed/latin-500.css';
import '@fontsource/barlow-semi-condensed/latin-600.css';
import '@fontsource/source-serif-4/latin-400-italic.css';
import '@fontsource/source-serif-4/latin-600.css';
import './parts/look.css';
import './parts/page.css';
import './parts/strips.css';
import './alerts/alerts.css';
import './parts/panel.css';
import './parts/form.css';
import './live/header.css';
import './live/live.css';
import './live/reading.css';
import './live/say.css';
import './chart/chart.css';
import './live/days-work.css';
import './live/nothing-yet.css';
import './hunt/hunt.css';
import './nitrogen/nitrogen.css';
import './plan/plan.css';
import './read-in/read-in.css';
import './rehearse/rehearse.css';
import './second-screen/second-screen.css';
import './sensors/sensors.css';
import { AlertDesk } from './alerts/alert-desk.ts';
import { allowSoundOnGesture } from './alerts/chime.ts';
import { StreamClient } from './connection/stream-client.ts';
import { keepPage } from './offline/keep-page.ts';
import { Page } from './page.tsx';
import { notice } from './parts/notice.ts';
import { showState } from './parts/show-state.ts';
import { followLook } from './store/choices.ts';
import { PairScreen } from './second-screen/pair-screen.tsx';
import { takePairingCode } from './second-screen/pairing-code.ts';
import { forgetAllBut } from './store/remembered.ts';
import { Session } from './store/session.ts';
import { followLanguage, missingLanguage } from './store/speech.ts';
import { isElsewhere, keepKnowingThisScreen, learnThisScreen } from './store/this-screen.ts';
import { withoutLanguage } from './words/say-failure.ts';

const root = document.documentElement;
const address = new URL('stream', document.baseURI);
address.protocol = address.protocol === 'https:' ? 'wss:' : 'ws:';

const shown = connect();
const { session } = shown;
followLook(root);
allowSoundOnGesture();
const alerts = new AlertDesk(session, (recording) => {
  const aside = connect();
  aside.session.learn(recording);
  aside.session.open(recording.id, true);
  aside.client.start();
  const end = () => {
    aside.client.stop();
    aside.session.end();
  };
  return { session: aside.session, end };
});
effect(() => showState(session, alerts, root));
effect(() => {
  if (missingLanguage.value !== null) notice.value = withoutLanguage(missingLanguage.value);
  else if (notice.peek()?.code === 'language_missing') notice.value = null;
});
const place = document.getElementById('page');
void begin();
keepPage();

/** On another screen nothing of a job is asked for before that screen is known to be let in. */
async function begin(): Promise<void> {
  const scanned = isElsewhere() ? takePairingCode() : '';
  const hasToPair = isElsewhere() && (await learnThisScreen());
  const pairs = hasToPair || scanned !== '';
  // Nothing of a job stays where nobody may see one any more.
  if (hasToPair) forgetAllBut(['choices']);
  if (!pairs) shown.client.start();
  if (!pairs && isElsewhere()) keepKnowingThisScreen(session);
  // Nobody should see a page in one language that turns into another.
  await followLanguage(root);
  if (place === null) return;
  if (pairs) render(<PairScreen scanned={scanned} />, place);
  else render(<Page session={session} alerts={alerts} />, place);
}

/** What is known, and the connection that it is heard by. */
function connect(): { session: Session; client: StreamClient } {
  const made = new Session((recordingId) => client.follow(recordingId));
  const client = new StreamClient(address.href, {
    state: (state) => (made.connection.value = state),
    message: (message) => made.hear(message),
  });
  return { session: made, client };
}
