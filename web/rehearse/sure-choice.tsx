/** How sure somebody is, per cent: by slider or as a number. */
import { speech } from '../store/speech.ts';

interface SureChoiceProps {
  readonly percent: number;
  readonly set: (percent: number) => void;
}

const LEAST = 1;
const MOST = 100;

export function SureChoice({ percent, set }: SureChoiceProps) {
  const words = speech.value.wording.call;
  const take = ({ currentTarget }: { currentTarget: HTMLInputElement }) => {
    const value = Math.round(currentTarget.valueAsNumber);
    if (value >= LEAST && value <= MOST) set(value);
  };
  return (
    <fieldset class="sure-choice" data-testid="pick-sure">
      <legend>{words.sure}</legend>
      <input
        type="range"
        name="sure-slider"
        min={LEAST}
        max={MOST}
        value={percent}
        aria-label={words.sure}
        aria-valuetext={words.percentOf({ percent: String(percent) })}
        onInput={take}
      />
      <label>
        <input
          type="number"
          name="sure"
          inputMode="numeric"
          min={LEAST}
          max={MOST}
          required
          value={percent}
          onInput={take}
        />
        {words.percent}
      </label>
      <span class="sure-ends" aria-hidden="true">
        <i>{words.guess}</i>
        <i>{words.certain}</i>
      </span>
    </fieldset>
  );
}
