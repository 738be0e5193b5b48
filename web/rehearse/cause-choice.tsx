/** The causes, each with what it means. */
import { REHEARSAL_CAUSES, type RehearsalCause } from '../../protocol/api.ts';
import { speech } from '../store/speech.ts';

interface CauseChoiceProps {
  readonly chosen: RehearsalCause | null;
  readonly pick: (cause: RehearsalCause) => void;
}

export function CauseChoice({ chosen, pick }: CauseChoiceProps) {
  const { wording } = speech.value;
  return (
    <fieldset class="cause-choice" data-testid="pick-cause">
      <legend>{wording.call.causes}</legend>
      {REHEARSAL_CAUSES.map((cause) => {
        const { name, means } = wording.rehearsalCauses[cause];
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
