/** Says that no alert could be heard now, before one is missed. Any touch of the page will do. */
import { VolumeX } from 'lucide';
import { Icon } from '../parts/icon.tsx';
import { isRunning } from '../store/choose-recording.ts';
import { speech } from '../store/speech.ts';
import type { AlertBook } from './alert-book.ts';
import { allowSound } from './chime.ts';
import { isBlocked } from './is-blocked.ts';

export function BlockedSound({ book }: { readonly book: AlertBook }) {
  const recording = book.heard.value?.recording.value ?? null;
  const isWanted = recording !== null && isRunning(recording);
  // An alert that stands there says it itself.
  if (!isWanted || !isBlocked.value || book.open.value.length > 0) return null;
  return (
    <p class="blocked-sound" role="status" data-testid="blocked-sound">
      <Icon of={VolumeX} /> <span>{speech.value.wording.reach.blocked}</span>
      <button type="button" data-testid="allow-sound" onClick={() => void allowSound()}>
        {speech.value.wording.reach.unblock}
      </button>
    </p>
  );
}
