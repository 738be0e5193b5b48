/** Says that no alert could be heard now, before one is missed. Any touch of the page will do. */
import { Icon } from '../parts/icon.tsx';
import { VolumeX } from 'lucide';
import { isRunning } from '../store/choose-recording.ts';
import type { Session } from '../store/session.ts';
import { speech } from '../store/speech.ts';
import { alertChoices } from './alert-choices.ts';
import { allowSound, soundState } from './chime.ts';

export function BlockedSound({ session }: { readonly session: Session }) {
  const recording = session.recording.value;
  const isWanted = alertChoices.value.sound !== 'off' && recording !== null && isRunning(recording);
  if (!isWanted || soundState.value !== 'blocked') return null;
  return (
    <p class="blocked-sound" role="status" data-testid="blocked-sound">
      <Icon of={VolumeX} /> <span>{speech.value.wording.reach.blocked}</span>
      <button type="button" data-testid="allow-sound" onClick={() => void allowSound()}>
        {speech.value.wording.reach.unblock}
      </button>
    </p>
  );
}
