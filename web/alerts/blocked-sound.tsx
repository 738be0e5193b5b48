/** Says that no alert could be heard now, before one is missed. Any touch of the page will do. */
import { VolumeX } from 'lucide';
import { Icon } from '../parts/icon.tsx';
import { speech } from '../store/speech.ts';
import type { AlertDesk } from './alert-desk.ts';
import { alertChoices } from './alert-choices.ts';
import { allowSound, soundState } from './chime.ts';

export function BlockedSound({ desk }: { readonly desk: AlertDesk }) {
  const isBlocked = alertChoices.value.sound !== 'off' && soundState.value === 'blocked';
  // Another window calls, or an alert stands there whose button is pressed first.
  if (!isBlocked || !desk.calls.value || desk.open.value.length > 0) return null;
  return (
    <p class="blocked-sound" role="status" data-testid="blocked-sound">
      <Icon of={VolumeX} /> <span>{speech.value.wording.reach.blocked}</span>
      <button type="button" data-testid="allow-sound" onClick={() => void allowSound()}>
        {speech.value.wording.reach.unblock}
      </button>
    </p>
  );
}
