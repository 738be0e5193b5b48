/** What gauge and thermometer show now. */
import { useState } from 'preact/hooks';
import { speech } from '../store/speech.ts';
import { sayGauge } from '../words/say-gauge-pressure.ts';
import { type NitrogenTexts, withReading } from './nitrogen-form.ts';
import { sayUnusualReading } from './unusual-reading.ts';
import type { NitrogenProps } from './nitrogen-props.ts';

const EMPTY = { pressure: '', temperature: '', when: '', note: '', justFilled: false };

export function ReadingForm({ open, unit }: NitrogenProps) {
  const words = speech.value.wording.nitrogen;
  const { nitrogenReadings: readings, nitrogenGauge: gauge } = open.sheet.value;
  const [texts, setTexts] = useState<NitrogenTexts>({
    ...EMPTY,
    step: String(readings.at(-1)?.step ?? 1),
  });
  const [why, setWhy] = useState('');
  /** Far from usual: entered once somebody says that it is so. */
  const [unusual, setUnusual] = useState<string | null>(null);
  const write =
    (field: Exclude<keyof NitrogenTexts, 'justFilled'>) =>
    (event: { currentTarget: { value: string } }) => {
      setWhy('');
      setUnusual(null);
      setTexts({ ...texts, [field]: event.currentTarget.value });
    };
  const enter = (event: Event, isSaidSo = false) => {
    event.preventDefault();
    const read = withReading(readings, texts, unit, speech.peek(), Date.now());
    setUnusual(null);
    if (!read.ok) {
      setWhy(words.wrong[read.wrong]);
      return;
    }
    const found = isSaidSo ? null : sayUnusualReading(read.added, unit, speech.peek());
    if (found !== null) {
      setUnusual(found);
      return;
    }
    void open.enter({ nitrogenReadings: read.readings }).then((isKept) => {
      if (isKept) setTexts({ ...EMPTY, step: texts.step });
    });
  };
  const { makersMost } = gauge;
  const isAbove =
    makersMost !== null && readings.some(({ pressure }) => pressure.gaugePa > makersMost.gaugePa);
  return (
    <form class="form" onSubmit={enter} data-testid="nitrogen-form">
      <label>
        {words.pressure({ unit })}
        <input
          name="pressure"
          inputMode="decimal"
          autoComplete="off"
          value={texts.pressure}
          onInput={write('pressure')}
        />
      </label>
      <label>
        {words.temperature({ unit: speech.value.units.temperature })}
        <input
          name="temperature"
          inputMode="decimal"
          autoComplete="off"
          value={texts.temperature}
          onInput={write('temperature')}
        />
      </label>
      <label>
        {speech.value.wording.typeIn.when}
        <input
          name="when"
          autoComplete="off"
          placeholder={speech.value.wording.typeIn.now}
          value={texts.when}
          onInput={write('when')}
        />
      </label>
      <label>
        {words.step}
        <input name="step" inputMode="numeric" value={texts.step} onInput={write('step')} />
      </label>
      <label class="two-thirds">
        {words.note}
        <input name="note" maxLength={200} value={texts.note} onInput={write('note')} />
      </label>
      <label class="wide check">
        <input
          type="checkbox"
          name="justFilled"
          checked={texts.justFilled}
          onChange={(event) => setTexts({ ...texts, justFilled: event.currentTarget.checked })}
        />
        {words.justFilled}
      </label>
      {why !== '' && (
        <p class="wrong" role="alert">
          {why}
        </p>
      )}
      {unusual !== null && (
        <div class="wide unusual" role="alert" data-testid="unusual">
          <p class="wrong">{words.unusual({ said: unusual })}</p>
          <button type="button" data-testid="it-is-so" onClick={(event) => enter(event, true)}>
            {words.itIsSo({ said: unusual })}
          </button>
        </div>
      )}
      {isAbove && (
        <p class="wrong" role="alert">
          {words.aboveMost({ most: sayGauge(makersMost, unit, speech.value) })}
        </p>
      )}
      <button type="submit" class="urgent">
        {words.enter}
      </button>
    </form>
  );
}
