/** How alerts reach somebody: chosen here, and tried here before it counts. */
import { useState } from 'preact/hooks';
import { Panel } from '../parts/panel.tsx';
import { PickOne } from '../parts/pick-one.tsx';
import {
  REACH_WORDS,
  REPEAT_LABELS,
  sayPermission,
  saySoundState,
  sayVolume,
  SOUND_LABELS,
} from '../words/say-reach.ts';
import { alertChoices, chooseAlerts, REPEATS, SOUND_CHOICES } from './alert-choices.ts';
import { buzz, speak } from './call-out.ts';
import { SoundCheck } from './sound-check.tsx';
import { soundState } from './chime.ts';

export function ReachPanel() {
  const [permission, setPermission] = useState(notificationPermission);
  const chosen = alertChoices.value;
  const state = saySoundState(soundState.value);
  return (
    <Panel title={REACH_WORDS.title} testId="reach-panel">
      <p class="quiet">{REACH_WORDS.help}</p>
      <PickOne
        legend={REACH_WORDS.sound}
        name="alert-sound"
        options={SOUND_CHOICES}
        chosen={chosen.sound}
        label={(sound) => SOUND_LABELS[sound]}
        pick={(sound) => chooseAlerts({ sound })}
      />
      <label class="slider">
        {REACH_WORDS.volume}
        <input
          type="range"
          name="volume"
          min="0.1"
          max="1"
          step="0.05"
          value={chosen.volume}
          disabled={chosen.sound === 'off'}
          onInput={(event) => chooseAlerts({ volume: event.currentTarget.valueAsNumber })}
        />
        <output>{sayVolume(chosen.volume)}</output>
      </label>
      {state !== '' && (
        <p class="wrong" role="status" data-testid="sound-state">
          {state}
        </p>
      )}
      {chosen.sound !== 'off' && <SoundCheck sound={chosen.sound} volume={chosen.volume} />}
      <PickOne
        legend={REACH_WORDS.repeat}
        name="alert-repeat"
        options={REPEATS}
        chosen={chosen.repeat}
        label={(repeat) => REPEAT_LABELS[repeat]}
        pick={(repeat) => chooseAlerts({ repeat })}
      />
      <label class="check">
        <input
          type="checkbox"
          name="vibrate"
          checked={chosen.vibrate}
          onChange={(event) => {
            chooseAlerts({ vibrate: event.currentTarget.checked });
            if (event.currentTarget.checked) buzz();
          }}
        />
        {REACH_WORDS.vibrate}
      </label>
      <div class="row">
        <label class="check">
          <input
            type="checkbox"
            name="spoken"
            checked={chosen.spoken}
            onChange={(event) => chooseAlerts({ spoken: event.currentTarget.checked })}
          />
          {REACH_WORDS.speak}
        </label>
        <button
          type="button"
          data-testid="try-speech"
          onClick={() => speak([REACH_WORDS.speechSample])}
        >
          {REACH_WORDS.trySpeech}
        </button>
      </div>
      <div class="row">
        <button
          type="button"
          data-testid="ask-notifications"
          disabled={permission !== 'default'}
          onClick={() => void Notification.requestPermission().then(setPermission)}
        >
          {REACH_WORDS.ask}
        </button>
        <span role="status">{sayPermission(permission)}</span>
      </div>
    </Panel>
  );
}

function notificationPermission(): NotificationPermission | 'none' {
  return 'Notification' in window ? Notification.permission : 'none';
}
