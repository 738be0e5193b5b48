/** One step of the day's work: its cautions. */
import { Panel } from '../parts/panel.tsx';
import { speech } from '../store/speech.ts';
import type { CautionPlace } from '../words/say-caution.ts';

export function WorkPanel({ place }: { readonly place: CautionPlace }) {
  const words = speech.value.wording.work;
  return (
    <Panel title={words.places[place]} testId="work-panel">
      <ul class="cautions">
        {words.cautions[place].map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
      <p class="quiet">{words.whoDecides}</p>
    </Panel>
  );
}
