/** Language, units, look and paper. */
import { LANGUAGE_NAMES } from '../../protocol/languages.ts';
import { PRESSURE_UNITS, TEMPERATURE_UNITS } from '../../protocol/units.ts';
import { choices, choose, LANGUAGE_CHOICES, LOOKS, PAPER_CHOICES } from '../store/choices.ts';
import { speech } from '../store/speech.ts';
import { Panel } from './panel.tsx';
import { PickOne } from './pick-one.tsx';

export function SettingsPanel() {
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
      <PickOne
        legend={words.paper}
        name="paper"
        options={PAPER_CHOICES}
        chosen={chosen.paper}
        label={(paper) => words.papers[paper]}
        pick={(paper) => choose({ paper })}
      />
    </Panel>
  );
}
