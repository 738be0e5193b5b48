/** Speed, pause, on to the next event, begin again, stop. */
import { type IconNode, Pause, Play, RotateCcw, SkipForward, Square } from 'lucide';
import type { ComponentChildren } from 'preact';
import { REHEARSAL_RATES, type StartRehearsal } from '../../protocol/api.ts';
import { steerRehearsal } from '../connection/bridge-api.ts';
import { Icon } from '../parts/icon.tsx';
import { tell } from '../parts/notice.ts';
import type { Session } from '../store/session.ts';
import { speech } from '../store/speech.ts';
import { sayJump, sayRate } from '../words/say-rehearsal.ts';
import { begin } from './begin.ts';
import { rateFrom } from './rates.ts';

interface WorkButtonsProps {
  readonly session: Session;
  /** Null where another page began it: then nobody here knows how to begin the same again. */
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
        press={() => void tell(steerRehearsal({ paused: !paused }))}
      >
        {paused ? words.bar.goOn : words.bar.pause}
      </WorkButton>
      <WorkButton
        testId="jump"
        sign={SkipForward}
        press={() => void tell(steerRehearsal({ jump: true }))}
      >
        <span class="roomy">{jump.long}</span>
        <span class="tight">{jump.short}</span>
      </WorkButton>
      {wish !== null && (
        <WorkButton
          testId="again"
          sign={RotateCcw}
          press={() => void begin(session, { ...wish, rate: rateFrom(rate) })}
        >
          {words.bar.again}
        </WorkButton>
      )}
      <WorkButton
        testId="stop"
        sign={Square}
        press={() => void tell(steerRehearsal({ stop: true }))}
      >
        {words.bar.stop}
      </WorkButton>
    </>
  );
}

interface WorkButtonProps {
  readonly testId: string;
  /** Stands for the words on a small screen, where these are only heard. */
  readonly sign: IconNode;
  readonly press: () => void;
  readonly children: ComponentChildren;
}

function WorkButton({ testId, sign, press, children }: WorkButtonProps) {
  return (
    <button type="button" data-testid={testId} onClick={press}>
      <Icon of={sign} />
      <span class="in-words">{children}</span>
    </button>
  );
}
