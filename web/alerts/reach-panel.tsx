/** How alerts reach somebody: chosen here, and tried here before it counts. */
import { useState } from 'preact/hooks';
import { Panel } from '../parts/panel.tsx';
import { PickOne } from '../parts/pick-one.tsx';
import { speech } from '../store/speech.ts';
import { saySoundState, sayVolume } from '../words/say-reach.ts';
import { alertChoices, chooseAlerts, REPEATS, SOUND_CHOICES } from './alert-choices.ts';
import { buzz, speak } from './call-out.ts';
import { SoundCheck } from './sound-check.tsx';
import { soundState } from './chime.ts';

export function ReachPanel() {
  const [permission, setPermission] = useState(notificationPermission);
  const words = speech.value.wording.reach;
  const chosen = alertChoices.value;
  const state = saySoundState(soundState.value, speech.value);
  return (
    <Panel title={words.title} testId="reach-panel">
      <p class="quiet">{words.help}</p>
      <PickOne
        legend={words.sound}
        name="alert-sound"
        options={SOUND_CHOICES}
        chosen={chosen.sound}
        label={(sound) => words.sounds[sound]}
        pick={(sound) => chooseAlerts({ sound })}
      />
      <label class="slider">
        {words.volume}
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
        legend={words.repeat}
        name="alert-repeat"
        options={REPEATS}
        chosen={chosen.repeat}
        label={(repeat) => words.repeats[repeat]}
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
        {words.vibrate}
      </label>
      <div class="row">
        <label class="check">
          <input
            type="checkbox"
            name="spoken"
            checked={chosen.spoken}
            onChange={(event) => chooseAlerts({ spoken: event.currentTarget.checked })}
          />
          {words.speak}
        </label>
        <button type="button" data-testid="try-speech" onClick={() => speak([words.speechSample])}>
          {words.trySpeech}
        </button>
      </div>
      <div class="row">
        <button
          type="button"
          data-testid="ask-notifications"
          disabled={permission !== 'default'}
          onClick={() => void Notification.requestPermission().then(setPermission)}
        >
          {words.ask}
        </button>
        <span role="status">{words.permissions[permission]}</span>
      </div>
    </Panel>
  );
}

function notificationPermission(): NotificationPermission | 'none' {
  return 'Notification' in window ? Notification.permission : 'none';
}
