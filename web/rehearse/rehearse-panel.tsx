/** Choose a simulated job. What is wrong with it is not said. */
import { useEffect, useState } from 'preact/hooks';
import type { RehearsalCard, StartRehearsal } from '../../protocol/api.ts';
import { listRehearsals, listResults } from '../connection/bridge-api.ts';
import { tell } from '../parts/notice.ts';
import { Panel } from '../parts/panel.tsx';
import { panel } from '../parts/panels.ts';
import { rememberTrainee, trainee } from '../store/rehearsed.ts';
import type { Session } from '../store/session.ts';
import { speech } from '../store/speech.ts';
import { begin } from './begin.ts';
import { HowToRehearse, type Manner, USUAL_MANNER } from './how-to-rehearse.tsx';
import { sortCards } from './job-cards.ts';
import { JobList } from './job-list.tsx';
import { rateFrom } from './rates.ts';

export function RehearsePanel({ session }: { readonly session: Session }) {
  const words = speech.value.wording.rehearse;
  const [cards, setCards] = useState<readonly RehearsalCard[] | null>(null);
  const [called, setCalled] = useState<ReadonlySet<string>>(new Set());
  const [name, setName] = useState(() => trainee.peek());
  const [manner, setManner] = useState<Manner>(USUAL_MANNER);
  const [busy, setBusy] = useState(false);
  useEffect(() => {
    void tell(listRehearsals()).then((found) => setCards(found ?? []));
    void tell(listResults()).then((found) => {
      const own = found?.filter((result) => result.trainee === trainee.peek()) ?? [];
      setCalled(new Set(own.map(({ scenario }) => scenario)));
    });
  }, []);
  const start = ({ name: job, seed }: Pick<StartRehearsal, 'name' | 'seed'>) => {
    setBusy(true);
    rememberTrainee(name);
    const { rate, helper } = manner;
    void begin(session, { name: job, seed, rate: rateFrom(rate), helper });
  };
  return (
    <Panel title={words.title} testId="rehearse-panel">
      <p class="quiet">{words.help}</p>
      <HowToRehearse name={name} setName={setName} manner={manner} setManner={setManner} />
      {cards === null && <p>{words.asking}</p>}
      {cards !== null && (
        <JobList cards={sortCards(cards)} called={called} busy={busy} start={start} />
      )}
      <button type="button" data-testid="open-results" onClick={() => (panel.value = 'results')}>
        {words.results}
      </button>
    </Panel>
  );
}
