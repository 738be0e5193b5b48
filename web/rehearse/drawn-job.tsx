/** A new job each time, by difficulty; its number makes it the same one again. */
import { useState } from 'preact/hooks';
import type { RehearsalCard, StartRehearsal } from '../../protocol/api.ts';
import { PickOne } from '../parts/pick-one.tsx';
import { speech } from '../store/speech.ts';
import { sayDifficulty } from '../words/say-rehearsal.ts';
import { seedFromText } from './job-cards.ts';
import { randomSeed } from './random-seed.ts';

interface DrawnJobProps {
  readonly cards: readonly RehearsalCard[];
  readonly busy: boolean;
  readonly start: (job: Pick<StartRehearsal, 'name' | 'seed'>) => void;
}

export function DrawnJob({ cards, busy, start }: DrawnJobProps) {
  const words = speech.value.wording.rehearse;
  const [chosen, setChosen] = useState(cards[0]?.name ?? '');
  const [number, setNumber] = useState(() => String(randomSeed()));
  const [wrong, setWrong] = useState(false);
  const card = cards.find(({ name }) => name === chosen);
  const write = (text: string) => {
    setWrong(false);
    setNumber(text);
  };
  const submit = (event: Event) => {
    event.preventDefault();
    const seed = seedFromText(number);
    if (seed === null) setWrong(true);
    else start({ name: chosen, seed });
  };
  return (
    <form class="drawn" onSubmit={submit} data-testid="drawn-job">
      <PickOne
        legend={words.difficulty}
        name="difficulty"
        options={cards.map(({ name }) => name)}
        chosen={chosen}
        label={(name) => sayDifficulty(name, speech.value) ?? name}
        pick={setChosen}
      />
      <p lang="en">{card?.situation}</p>
      <div class="row">
        <label class="stacked">
          {words.seed}
          <input
            name="seed"
            inputMode="numeric"
            autoComplete="off"
            aria-invalid={wrong}
            value={number}
            onInput={(event) => write(event.currentTarget.value)}
          />
        </label>
        <button type="button" onClick={() => write(String(randomSeed()))}>
          {words.anotherSeed}
        </button>
        <button type="submit" class="urgent" disabled={busy} data-testid="start-drawn">
          {words.start}
        </button>
      </div>
      {wrong ? (
        <p class="wrong" role="alert">
          {words.seedWrong}
        </p>
      ) : (
        <p class="quiet">{words.seedWhy}</p>
      )}
    </form>
  );
}
