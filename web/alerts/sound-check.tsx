/** Plays the chosen sound as loud as an alert will be, and asks whether that is loud enough out there. */
import { useState } from 'preact/hooks';
import { speech } from '../store/speech.ts';
import { chime } from './chime.ts';
import type { SoundName } from './sounds.ts';

interface SoundCheckProps {
  readonly sound: SoundName;
  readonly volume: number;
}

type Answered = 'not_played' | 'asking' | 'heard' | 'not_heard';

export function SoundCheck({ sound, volume }: SoundCheckProps) {
  const [answered, setAnswered] = useState<Answered>('not_played');
  const words = speech.value.wording.reach;
  const play = () => void chime(sound, volume).then((heard) => heard && setAnswered('asking'));
  return (
    <div class="row" data-testid="sound-check" data-answered={answered}>
      <button type="button" data-testid="check-sound" onClick={play}>
        {words.check}
      </button>
      <span role="status">
        {answered === 'asking' && words.heard}
        {answered === 'heard' && words.fine}
        {answered === 'not_heard' && words.louder}
      </span>
      {answered === 'asking' && (
        <>
          <button type="button" data-testid="sound-heard" onClick={() => setAnswered('heard')}>
            {words.yes}
          </button>
          <button
            type="button"
            data-testid="sound-not-heard"
            onClick={() => setAnswered('not_heard')}
          >
            {words.no}
          </button>
        </>
      )}
    </div>
  );
}
