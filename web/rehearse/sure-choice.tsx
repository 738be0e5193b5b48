/** How sure somebody is, per cent: by slider or as a number. */
import { CALL_WORDS } from '../words/say-call.ts';

interface SureChoiceProps {
  readonly percent: number;
  readonly set: (percent: number) => void;
}

const LEAST = 1;
const MOST = 100;

export function SureChoice({ percent, set }: SureChoiceProps) {
  const take = ({ currentTarget }: { currentTarget: HTMLInputElement }) => {
    const value = Math.round(currentTarget.valueAsNumber);
    if (value >= LEAST && value <= MOST) set(value);
  };
  return (
    <fieldset class="sure-choice" data-testid="pick-sure">
      <legend>{CALL_WORDS.sure}</legend>
      <input
        type="range"
        name="sure-slider"
        min={LEAST}
        max={MOST}
        value={percent}
        aria-label={CALL_WORDS.sure}
        aria-valuetext={`${percent} ${CALL_WORDS.percent}`}
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
        {CALL_WORDS.percent}
      </label>
      <span class="sure-ends" aria-hidden="true">
        <i>{CALL_WORDS.guess}</i>
        <i>{CALL_WORDS.certain}</i>
      </span>
    </fieldset>
  );
}
