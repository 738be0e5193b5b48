/** One step of the day's work: its cautions. */
import { Panel } from '../parts/panel.tsx';
import { type CautionPlace, CAUTIONS, WHO_DECIDES, WORK_NAMES } from '../words/say-caution.ts';

export function WorkPanel({ place }: { readonly place: CautionPlace }) {
  return (
    <Panel title={WORK_NAMES[place]} testId="work-panel">
      <ul class="cautions">
        {CAUTIONS[place].map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
      <p class="quiet">{WHO_DECIDES}</p>
    </Panel>
  );
}
