/** Units and look, and how alerts are given. */
import { useState } from 'preact/hooks';
import { PRESSURE_UNITS, TEMPERATURE_UNITS } from '../../protocol/units.ts';
import { chime, soundState } from '../alerts/chime.ts';
import { choices, choose, LOOKS } from '../store/choices.ts';
import { LOOK_NAMES, saySound } from '../words/say-settings.ts';
import { Panel } from './panel.tsx';
import { PickOne } from './pick-one.tsx';

export function SettingsPanel() {
  const [permission, setPermission] = useState(notificationPermission);
  const [tried, setTried] = useState(false);
  const chosen = choices.value;
  return (
    <Panel title="Alerts, units and look" testId="settings-panel">
      <PickOne
        legend="Pressure in"
        name="pressure"
        options={PRESSURE_UNITS}
        chosen={chosen.pressure}
        label={(unit) => unit}
        pick={(pressure) => choose({ pressure })}
      />
      <PickOne
        legend="Temperature in"
        name="temperature"
        options={TEMPERATURE_UNITS}
        chosen={chosen.temperature}
        label={(unit) => unit}
        pick={(temperature) => choose({ temperature })}
      />
      <PickOne
        legend="Look"
        name="look"
        options={LOOKS}
        chosen={chosen.look}
        label={(look) => LOOK_NAMES[look]}
        pick={(look) => choose({ look })}
      />
      <h2>At the target, and when there is a verdict</h2>
      <p class="quiet">The page says so and changes its title. Beyond that:</p>
      <div class="row">
        <label class="check">
          <input
            type="checkbox"
            checked={chosen.sound}
            onChange={(event) => choose({ sound: event.currentTarget.checked })}
          />
          Sound
        </label>
        <button
          type="button"
          data-testid="try-sound"
          onClick={() => void chime().then(() => setTried(true))}
        >
          Try the sound
        </button>
        <span role="status" data-testid="sound-state">
          {tried || soundState.value !== 'ready' ? saySound(soundState.value) : ''}
        </span>
      </div>
      <div class="row">
        <button
          type="button"
          data-testid="ask-notifications"
          disabled={permission !== 'default'}
          onClick={() => void Notification.requestPermission().then(setPermission)}
        >
          Allow system notifications
        </button>
        <span role="status">{PERMISSIONS[permission]}</span>
      </div>
    </Panel>
  );
}

const PERMISSIONS = {
  default: 'Not asked yet.',
  granted: 'Allowed.',
  denied: 'Refused: change it in the browser’s settings for this address.',
  none: 'This browser has none.',
} as const;

function notificationPermission(): keyof typeof PERMISSIONS {
  return 'Notification' in window ? Notification.permission : 'none';
}
