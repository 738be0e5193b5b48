/** Units and look. */
import { PRESSURE_UNITS, TEMPERATURE_UNITS } from '../../protocol/units.ts';
import { choices, choose, LOOKS } from '../store/choices.ts';
import { LOOK_NAMES, SETTINGS_WORDS } from '../words/say-settings.ts';
import { Panel } from './panel.tsx';
import { PickOne } from './pick-one.tsx';

export function SettingsPanel() {
  const chosen = choices.value;
  return (
    <Panel title={SETTINGS_WORDS.title} testId="settings-panel">
      <PickOne
        legend={SETTINGS_WORDS.pressure}
        name="pressure"
        options={PRESSURE_UNITS}
        chosen={chosen.pressure}
        label={(unit) => unit}
        pick={(pressure) => choose({ pressure })}
      />
      <PickOne
        legend={SETTINGS_WORDS.temperature}
        name="temperature"
        options={TEMPERATURE_UNITS}
        chosen={chosen.temperature}
        label={(unit) => unit}
        pick={(temperature) => choose({ temperature })}
      />
      <PickOne
        legend={SETTINGS_WORDS.look}
        name="look"
        options={LOOKS}
        chosen={chosen.look}
        label={(look) => LOOK_NAMES[look]}
        pick={(look) => choose({ look })}
      />
    </Panel>
  );
}
