/** Plays the chosen sound as loud as an alert will be, and asks whether that is loud enough out there. */
import { useState } from 'preact/hooks';
import { REACH_WORDS } from '../words/say-reach.ts';
import { chime } from './chime.ts';
import type { SoundName } from './sounds.ts';

interface SoundCheckProps {
  readonly sound: SoundName;
  readonly volume: number;
}

type Answered = 'not_played' | 'asking' | 'heard' | 'not_heard';

export function SoundCheck({ sound, volume }: SoundCheckProps) {
  const [answered, setAnswered] = useState<Answered>('not_played');
  const play = () => void chime(sound, volume).then((heard) => heard && setAnswered('asking'));
  return (
    <div class="row" data-testid="sound-check" data-answered={answered}>
      <button type="button" data-testid="check-sound" onClick={play}>
        {REACH_WORDS.check}
      </button>
      <span role="status">
        {answered === 'asking' && REACH_WORDS.heard}
        {answered === 'heard' && REACH_WORDS.fine}
        {answered === 'not_heard' && REACH_WORDS.louder}
      </span>
      {answered === 'asking' && (
        <>
          <button type="button" data-testid="sound-heard" onClick={() => setAnswered('heard')}>
            {REACH_WORDS.yes}
          </button>
          <button
            type="button"
            data-testid="sound-not-heard"
            onClick={() => setAnswered('not_heard')}
          >
            {REACH_WORDS.no}
          </button>
        </>
      )}
    </div>
  );
}
