/** Says what lies behind the curve, and takes it away again. */
import { PickOne } from '../parts/pick-one.tsx';
import { clockWords } from '../parts/clock-words.ts';
import { speech } from '../store/speech.ts';
import { sayJobPlace } from '../words/say-job.ts';
import { ALIGNMENTS, laidBehind, layFrom } from './laid-behind.ts';

/** @param isPlaced false: one of the two jobs has no moment of that kind */
export function LaidBehindStrip({ isPlaced }: { readonly isPlaced: boolean }) {
  const laid = laidBehind.value;
  if (laid === null) return null;
  const words = speech.value.wording.laidBehind;
  const { card, from } = laid;
  const job = `${sayJobPlace(card, speech.value)}, ${clockWords(card.startedAtMs, speech.value)}`;
  return (
    <div class="laid-behind" data-testid="laid-behind">
      <p>
        {words.title({ job })}
        {!isPlaced && <> {words.nothing}</>}
      </p>
      <PickOne
        legend={words.from}
        name="laid-from"
        options={ALIGNMENTS}
        chosen={from}
        label={(one) => words.aligned[one]}
        pick={layFrom}
      />
      <button type="button" onClick={() => (laidBehind.value = null)}>
        {words.takeAway}
      </button>
    </div>
  );
}
