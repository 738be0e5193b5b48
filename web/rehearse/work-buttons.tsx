/** Speed, pause, on to the next event. */
import { Pause, Play, SkipForward } from 'lucide';
import { REHEARSAL_RATES, type StartRehearsal } from '../../protocol/api.ts';
import { steerRehearsal } from '../connection/bridge-api.ts';
import { tell } from '../parts/notice.ts';
import type { Session } from '../store/session.ts';
import { speech } from '../store/speech.ts';
import { sayJump, sayRate } from '../words/say-rehearsal.ts';
import { rateFrom } from './rates.ts';
import { WorkButton } from './work-button.tsx';

interface WorkButtonsProps {
  readonly session: Session;
  /** Null where another page began it: then nobody here knows who works it. */
  readonly wish: StartRehearsal | null;
}

export function WorkButtons({ session, wish }: WorkButtonsProps) {
  const source = session.source.value;
  const words = speech.value.wording.rehearse;
  const rate = String(source?.clockRate ?? 1);
  const paused = source?.phase === 'paused';
  const jump = sayJump(wish?.helper ?? true, speech.value);
  return (
    <>
      <label>
        <span>{words.speed}</span>{' '}
        <select
          data-testid="rate"
          value={rate}
          onChange={(event) =>
            void tell(steerRehearsal({ rate: rateFrom(event.currentTarget.value) }))
          }
        >
          {REHEARSAL_RATES.map((one) => (
            <option key={one} value={String(one)}>
              {sayRate(one, speech.value)}
            </option>
          ))}
        </select>
      </label>
      <WorkButton
        testId="pause"
        sign={paused ? Play : Pause}
        words={paused ? words.bar.goOn : words.bar.pause}
        press={() => void tell(steerRehearsal({ paused: !paused }))}
      />
      <WorkButton
        testId="jump"
        sign={SkipForward}
        words={jump.long}
        short={jump.short}
        press={() => void tell(steerRehearsal({ jump: true }))}
      />
    </>
  );
}
