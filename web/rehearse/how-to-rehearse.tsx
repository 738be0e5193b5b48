/** Who rehearses, who works the rig, and how fast time goes. */
import { REHEARSAL_RATES } from '../../protocol/api.ts';
import { PickOne } from '../parts/pick-one.tsx';
import { REHEARSE_WORDS } from '../words/say-rehearsal.ts';
import { rateWords } from './rates.ts';

const RATE_WORDS = REHEARSAL_RATES.map(rateWords);
const HANDS = ['helper', 'own'] as const;

export interface Manner {
  /** One of the speeds, in words. */
  readonly rate: string;
  readonly helper: boolean;
}

export const USUAL_MANNER: Manner = { rate: rateWords(20), helper: true };

interface HowToRehearseProps {
  readonly name: string;
  readonly setName: (name: string) => void;
  readonly manner: Manner;
  readonly setManner: (manner: Manner) => void;
}

export function HowToRehearse({ name, setName, manner, setManner }: HowToRehearseProps) {
  return (
    <div class="manner">
      <label class="stacked">
        {REHEARSE_WORDS.trainee}
        <input
          name="trainee"
          autoComplete="off"
          maxLength={60}
          value={name}
          onInput={(event) => setName(event.currentTarget.value)}
        />
      </label>
      <PickOne
        legend={REHEARSE_WORDS.hands}
        name="hands"
        options={HANDS}
        chosen={manner.helper ? 'helper' : 'own'}
        label={(hands) => (hands === 'helper' ? REHEARSE_WORDS.byHelper : REHEARSE_WORDS.byHand)}
        pick={(hands) => setManner({ ...manner, helper: hands === 'helper' })}
      />
      <PickOne
        legend={REHEARSE_WORDS.speed}
        name="rate"
        options={RATE_WORDS}
        chosen={manner.rate}
        label={(words) => words}
        pick={(rate) => setManner({ ...manner, rate })}
      />
    </div>
  );
}
