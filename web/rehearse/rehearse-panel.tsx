/** Choose a simulated job. What is wrong with it is not said. */
import { useEffect, useState } from 'preact/hooks';
import { REHEARSAL_RATES, type RehearsalCard } from '../../protocol/api.ts';
import { listRehearsals } from '../connection/bridge-api.ts';
import { tell } from '../parts/notice.ts';
import { Panel } from '../parts/panel.tsx';
import { panel } from '../parts/panels.ts';
import { PickOne } from '../parts/pick-one.tsx';
import type { Session } from '../store/session.ts';
import { begin } from './at-hand.ts';
import { rateFrom, rateWords } from './rates.ts';

const RATE_WORDS = REHEARSAL_RATES.map(rateWords);
const MOST_SEED = 0xffff_ffff;

export function RehearsePanel({ session }: { readonly session: Session }) {
  const [cards, setCards] = useState<readonly RehearsalCard[] | null>(null);
  const [rate, setRate] = useState(rateWords(20));
  const [helper, setHelper] = useState(true);
  const [number, setNumber] = useState('');
  const [busy, setBusy] = useState(false);
  useEffect(() => {
    void tell(listRehearsals()).then((found) => setCards(found ?? []));
  }, []);
  const seed = /^\d{1,10}$/u.test(number.trim()) ? Number(number) : null;
  const wrong = number.trim() !== '' && (seed === null || seed > MOST_SEED);
  const start = (name: string) => {
    setBusy(true);
    const drawn = crypto.getRandomValues(new Uint32Array(1))[0] ?? 1;
    const wish = { name, rate: rateFrom(rate), helper, seed: seed ?? drawn };
    void begin(session, wish).finally(() => setBusy(false));
  };
  return (
    <Panel title="Rehearse" testId="rehearse-panel">
      <p class="quiet">
        A simulated job with a hidden cause: watch the curve, say what it is and how sure you are,
        then have it revealed. It is marked as a rehearsal everywhere.
      </p>
      <PickOne
        legend="Speed"
        name="rate"
        options={RATE_WORDS}
        chosen={rate}
        label={(words) => words}
        pick={setRate}
      />
      <label class="check">
        <input
          type="checkbox"
          name="helper"
          checked={helper}
          onChange={(event) => setHelper(event.currentTarget.checked)}
        />
        A helper works pump and valves
      </label>
      <label class="number">
        Number, to repeat one (may stay empty){' '}
        <input
          name="seed"
          inputMode="numeric"
          autoComplete="off"
          aria-invalid={wrong}
          value={number}
          onInput={(event) => setNumber(event.currentTarget.value)}
        />
      </label>
      {wrong && (
        <p class="wrong" role="alert">
          A whole number from 0 to {MOST_SEED}, or nothing.
        </p>
      )}
      <button type="button" data-testid="open-results" onClick={() => (panel.value = 'results')}>
        How the calls have gone
      </button>
      <div class="cards">
        {cards === null && <p>Asking the bridge…</p>}
        {cards?.map((card) => (
          <article key={card.name} class="card to-rehearse" data-testid={`rehearsal-${card.name}`}>
            <div>
              <h2>{card.place}</h2>
              <p>{card.situation}</p>
            </div>
            <button
              type="button"
              class="urgent"
              disabled={busy || wrong}
              aria-label={`Start: ${card.place}`}
              data-testid={`start-${card.name}`}
              onClick={() => start(card.name)}
            >
              Start
            </button>
          </article>
        ))}
      </div>
    </Panel>
  );
}
