/** Who rehearses, who works the rig, and how fast time goes. */
import { REHEARSAL_RATES } from '../../protocol/api.ts';
import { PickOne } from '../parts/pick-one.tsx';
import { speech } from '../store/speech.ts';
import { sayRate } from '../words/say-rehearsal.ts';

const RATES = REHEARSAL_RATES.map(String);
const HANDS = ['helper', 'own'] as const;

export interface Manner {
  /** One of the speeds, as the form has it. */
  readonly rate: string;
  readonly helper: boolean;
}

export const USUAL_MANNER: Manner = { rate: '20', helper: true };

interface HowToRehearseProps {
  readonly name: string;
  readonly setName: (name: string) => void;
  readonly manner: Manner;
  readonly setManner: (manner: Manner) => void;
}

export function HowToRehearse({ name, setName, manner, setManner }: HowToRehearseProps) {
  const words = speech.value.wording.rehearse;
  return (
    <div class="manner">
      <label class="stacked">
        {words.trainee}
        <input
          name="trainee"
          autoComplete="off"
          maxLength={60}
          value={name}
          onInput={(event) => setName(event.currentTarget.value)}
        />
      </label>
      <PickOne
        legend={words.hands}
        name="hands"
        options={HANDS}
        chosen={manner.helper ? 'helper' : 'own'}
        label={(hands) => (hands === 'helper' ? words.byHelper : words.byHand)}
        pick={(hands) => setManner({ ...manner, helper: hands === 'helper' })}
      />
      <PickOne
        legend={words.speed}
        name="rate"
        options={RATES}
        chosen={manner.rate}
        label={(rate) => sayRate(Number(rate), speech.value)}
        pick={(rate) => setManner({ ...manner, rate })}
      />
    </div>
  );
}
