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
import './plan/plan.css';
import './read-in/read-in.css';
import './rehearse/rehearse.css';
import './second-screen/second-screen.css';
import './sensors/sensors.css';
import { startAlerting } from './alerts/alerting.ts';
import { allowSoundOnGesture } from './alerts/chime.ts';
import { StreamClient } from './connection/stream-client.ts';
import { keepPage } from './offline/keep-page.ts';
import { Page } from './page.tsx';
import { notice } from './parts/notice.ts';
import { showState } from './parts/show-state.ts';
import { followLook } from './store/choices.ts';
import { Session } from './store/session.ts';
import { followLanguage, missingLanguage } from './store/speech.ts';
import { withoutLanguage } from './words/say-failure.ts';

const root = document.documentElement;
const address = new URL('stream', document.baseURI);
address.protocol = address.protocol === 'https:' ? 'wss:' : 'ws:';

const session = new Session((recordingId) => client.follow(recordingId));
const client = new StreamClient(address.href, {
  state: (state) => (session.connection.value = state),
  message: (message) => session.hear(message),
});

followLook(root);
allowSoundOnGesture();
const alerts = startAlerting(session);
effect(() => showState(session, root));
effect(() => {
  if (missingLanguage.value !== null) notice.value = withoutLanguage(missingLanguage.value);
  else if (notice.peek()?.code === 'language_missing') notice.value = null;
});
client.start();
const place = document.getElementById('page');
// Nobody should see a page in one language that turns into another.
void followLanguage(root).then(() => {
  if (place !== null) render(<Page session={session} alerts={alerts} />, place);
});
keepPage();
