/** Where one is among the planned evacuations, while one works; nothing where none is planned. */
import { panel } from '../parts/panels.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { speech } from '../store/speech.ts';
import { sayNextCycle } from '../words/say-cycles.ts';

export function CycleLine({ followed }: { readonly followed: FollowedRecording }) {
  if (followed.sheet.value.triplePlan.cycles.length === 0) return null;
  const next = followed.cycles.value?.next ?? null;
  if (next === null) return null;
  return (
    <p data-testid="cycle-line">
      {sayNextCycle(next, speech.value)}{' '}
      <button type="button" aria-haspopup="dialog" onClick={() => (panel.value = 'cycles')}>
        {speech.value.wording.cycles.open}
      </button>
    </p>
  );
}
