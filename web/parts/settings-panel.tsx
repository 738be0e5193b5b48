/** Language, units and look, and how alerts are given. */
import { useState } from 'preact/hooks';
import { PRESSURE_UNITS, TEMPERATURE_UNITS } from '../../protocol/units.ts';
import { chime, soundState } from '../alerts/chime.ts';
import { LANGUAGE_NAMES } from '../../protocol/languages.ts';
import { choices, choose, LANGUAGE_CHOICES, LOOKS } from '../store/choices.ts';
import { speech } from '../store/speech.ts';
import { Panel } from './panel.tsx';
import { PickOne } from './pick-one.tsx';

export function SettingsPanel() {
  const [permission, setPermission] = useState(notificationPermission);
  const [tried, setTried] = useState(false);
  const chosen = choices.value;
  const { amounts, menu, settings: words } = speech.value.wording;
  return (
    <Panel title={menu.entries.settings.title} testId="settings-panel">
      <PickOne
        legend={words.language}
        name="language"
        options={LANGUAGE_CHOICES}
        chosen={chosen.language}
        label={(one) => (one === 'system' ? words.languageOfSystem : LANGUAGE_NAMES[one])}
        pick={(language) => choose({ language })}
      />
      <PickOne
        legend={words.pressureIn}
        name="pressure"
        options={PRESSURE_UNITS}
        chosen={chosen.pressure}
        label={(unit) => amounts.units[unit]}
        pick={(pressure) => choose({ pressure })}
      />
      <PickOne
        legend={words.temperatureIn}
        name="temperature"
        options={TEMPERATURE_UNITS}
        chosen={chosen.temperature}
        label={(unit) => unit}
        pick={(temperature) => choose({ temperature })}
      />
      <PickOne
        legend={words.look}
        name="look"
        options={LOOKS}
        chosen={chosen.look}
        label={(look) => words.looks[look]}
        pick={(look) => choose({ look })}
      />
      <h2>{words.alerts}</h2>
      <p class="quiet">{words.alertsHelp}</p>
      <div class="row">
        <label class="check">
          <input
            type="checkbox"
            checked={chosen.sound}
            onChange={(event) => choose({ sound: event.currentTarget.checked })}
          />
          {words.sound}
        </label>
        <button
          type="button"
          data-testid="try-sound"
          onClick={() => void chime().then(() => setTried(true))}
        >
          {words.trySound}
        </button>
        <span role="status" data-testid="sound-state">
          {tried || soundState.value !== 'ready' ? words.soundStates[soundState.value] : ''}
        </span>
      </div>
      <div class="row">
        <button
          type="button"
          data-testid="ask-notifications"
          disabled={permission !== 'default'}
          onClick={() => void Notification.requestPermission().then(setPermission)}
        >
          {words.allowNotifications}
        </button>
        <span role="status">{words.permissions[permission]}</span>
      </div>
    </Panel>
  );
}

function notificationPermission(): NotificationPermission | 'none' {
  return 'Notification' in window ? Notification.permission : 'none';
}
