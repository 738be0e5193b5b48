/** The causes, each with what it means. */
import { REHEARSAL_CAUSES, type RehearsalCause } from '../../protocol/api.ts';
import { CALL_WORDS } from '../words/say-call.ts';
import { REHEARSAL_CAUSE_WORDS } from '../words/say-rehearsal-cause.ts';

interface CauseChoiceProps {
  readonly chosen: RehearsalCause | null;
  readonly pick: (cause: RehearsalCause) => void;
}

export function CauseChoice({ chosen, pick }: CauseChoiceProps) {
  return (
    <fieldset class="cause-choice" data-testid="pick-cause">
      <legend>{CALL_WORDS.causes}</legend>
      {REHEARSAL_CAUSES.map((cause) => {
        const { name, means } = REHEARSAL_CAUSE_WORDS[cause];
        return (
          <label key={cause}>
            <input
              type="radio"
              name="cause"
              value={cause}
              required
              checked={cause === chosen}
              onChange={() => pick(cause)}
            />
            <b>{name}</b>
            <span>{means}</span>
          </label>
        );
      })}
    </fieldset>
  );
}
