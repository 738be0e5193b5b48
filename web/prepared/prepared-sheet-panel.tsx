/** One prepared sheet, to be filled in further. */
import { Panel } from '../parts/panel.tsx';
import { panel } from '../parts/panels.ts';
import { speech } from '../store/speech.ts';
import { PreparedForm } from './prepared-form.tsx';
import { turnAtHand } from './sheet-at-hand.ts';
import { WhichPrepared } from './which-prepared.tsx';

export function PreparedSheetPanel() {
  return (
    <Panel title={speech.value.wording.prepared.one} testId="prepared-sheet-panel">
      <WhichPrepared />
      <PreparedForm key={turnAtHand.value} done={() => (panel.value = 'prepared')} />
    </Panel>
  );
}
