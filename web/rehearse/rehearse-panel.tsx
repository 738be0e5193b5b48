/** Choose a simulated job. What is wrong with it is not said. */
import { useEffect, useState } from 'preact/hooks';
import { REHEARSAL_RATES, type RehearsalCard } from '../../protocol/api.ts';
import { listRehearsals, startRehearsal } from '../connection/bridge-api.ts';
import { tell } from '../parts/notice.ts';
import { Panel } from '../parts/panel.tsx';
import { panel } from '../parts/panels.ts';
import { PickOne } from '../parts/pick-one.tsx';
import type { Session } from '../store/session.ts';
import { lastReveal } from './last-reveal.ts';
import { rateFrom, rateWords } from './rates.ts';

const RATE_WORDS = REHEARSAL_RATES.map(rateWords);

export function RehearsePanel({ session }: { readonly session: Session }) {
  const [cards, setCards] = useState<readonly RehearsalCard[] | null>(null);
  const [rate, setRate] = useState(rateWords(20));
  const [helper, setHelper] = useState(true);
  const [busy, setBusy] = useState(false);
  useEffect(() => {
    void tell(listRehearsals()).then((found) => setCards(found ?? []));
  }, []);
  const start = (name: string) => {
    setBusy(true);
    const seed = crypto.getRandomValues(new Uint32Array(1))[0] ?? 1;
    void tell(startRehearsal({ name, rate: rateFrom(rate), helper, seed })).then((recording) => {
      setBusy(false);
      if (recording === null) return;
      lastReveal.value = null;
      session.learn(recording);
      session.open(recording.id, false);
      panel.value = null;
    });
  };
  return (
    <Panel title="Rehearse" testId="rehearse-panel">
      <p class="quiet">
        A simulated job with a hidden cause: watch the curve, make the call, then have it revealed.
        It is marked as a rehearsal everywhere.
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
      <div class="cards">
        {cards === null && <p>Asking the bridge…</p>}
        {cards?.map((card) => (
          <article key={card.name} class="card" data-testid={`rehearsal-${card.name}`}>
            <h2>{card.place}</h2>
            <p>{card.situation}</p>
            <button
              type="button"
              class="urgent"
              disabled={busy}
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
