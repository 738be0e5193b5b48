/** Whether the hold would pass, once the target has been reached: before that nobody asks. */
import type { Conclusions } from '../analysis/conclusions.ts';
import { speech } from '../store/speech.ts';
import { sayHoldChance } from '../words/say-hold-chance.ts';

export function HoldChanceLine({ conclusions }: { readonly conclusions: Conclusions }) {
  const { holdChance, targetReachedS } = conclusions;
  if (holdChance === null || targetReachedS === null) return null;
  return (
    <p class="rule-beside" data-testid="hold-chance">
      <b>{speech.value.wording.holdChance.ifValvedOff}</b> {sayHoldChance(holdChance, speech.value)}
    </p>
  );
}
