/** Gauge and thermometer of a nitrogen test, the air around, and what the maker allows. */
import { useState } from 'preact/hooks';
import { ACCURACIES_OF } from '../../protocol/nitrogen-test.ts';
import { speech } from '../store/speech.ts';
import { gaugeFromTexts, type GaugeTexts, textsFromGauge } from './nitrogen-form.ts';
import type { NitrogenProps } from './nitrogen-props.ts';

const NUMBERS = [
  'accuracy',
  'fullScale',
  'finest',
  'thermometer',
  'ambient',
  'makersMost',
] as const satisfies readonly (keyof GaugeTexts)[];

export function GaugeForm({ open, unit }: NitrogenProps) {
  const words = speech.value.wording.nitrogen;
  const gauge = open.sheet.value.nitrogenGauge;
  const [texts, setTexts] = useState(() => textsFromGauge(gauge, unit, speech.peek()));
  const [wrong, setWrong] = useState<(typeof NUMBERS)[number] | null>(null);
  const names = {
    accuracy: words.accuracy,
    fullScale: words.fullScale({ unit }),
    finest: words.finest({ unit }),
    thermometer: words.thermometer({ unit: speech.value.units.temperature }),
    ambient: words.ambient,
    makersMost: words.makersMost({ unit }),
  };
  const enter = (event: Event) => {
    event.preventDefault();
    const read = gaugeFromTexts(texts, gauge, unit, speech.peek());
    setWrong(read.ok ? null : read.wrong);
    if (read.ok) void open.enter({ nitrogenGauge: read.gauge });
  };
  return (
    <details data-testid="nitrogen-gauge">
      <summary>{words.own}</summary>
      <form class="form" onSubmit={enter}>
        {NUMBERS.map((field) => (
          <label key={field}>
            {names[field]}
            <input
              name={field}
              inputMode="decimal"
              autoComplete="off"
              aria-invalid={wrong === field}
              value={texts[field]}
              onInput={(event) => setTexts({ ...texts, [field]: event.currentTarget.value })}
            />
          </label>
        ))}
        <label>
          {words.accuracyOf}
          <select
            name="accuracyOf"
            value={texts.accuracyOf}
            onChange={({ currentTarget }) => {
              const chosen = ACCURACIES_OF.find((one) => one === currentTarget.value);
              if (chosen !== undefined) setTexts({ ...texts, accuracyOf: chosen });
            }}
          >
            {ACCURACIES_OF.map((one) => (
              <option key={one} value={one}>
                {words.ofWhat[one]}
              </option>
            ))}
          </select>
        </label>
        {wrong !== null && (
          <p class="wrong" role="alert">
            {words.wrongGauge({ name: names[wrong] })}
          </p>
        )}
        <button type="submit">{words.enter}</button>
      </form>
      <p class="quiet">{words.errors}</p>
    </details>
  );
}
