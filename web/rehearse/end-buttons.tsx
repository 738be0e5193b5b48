/** Begin again, stop: apart from the others, and asked first, since neither can be undone. */
import { RotateCcw, Square } from 'lucide';
import { useState } from 'preact/hooks';
import type { StartRehearsal } from '../../protocol/api.ts';
import { steerRehearsal } from '../connection/bridge-api.ts';
import { tell } from '../parts/notice.ts';
import { Panel } from '../parts/panel.tsx';
import type { Session } from '../store/session.ts';
import { speech } from '../store/speech.ts';
import { begin } from './begin.ts';
import { rateFrom } from './rates.ts';
import { WorkButton } from './work-button.tsx';

interface EndButtonsProps {
  readonly session: Session;
  /** Null where another page began it: then nobody here knows how to begin the same again. */
  readonly wish: StartRehearsal | null;
}

export function EndButtons({ session, wish }: EndButtonsProps) {
  const { bar, ends } = speech.value.wording.rehearse;
  const [asked, setAsked] = useState<'again' | 'stop' | null>(null);
  const end = () => {
    if (asked === 'stop' || wish === null) void tell(steerRehearsal({ stop: true }));
    else {
      const rate = rateFrom(String(session.source.value?.clockRate ?? 1));
      void begin(session, { ...wish, rate });
    }
    setAsked(null);
  };
  return (
    <>
      <div class="endings">
        {wish !== null && (
          <WorkButton
            testId="again"
            sign={RotateCcw}
            words={bar.again}
            asks
            press={() => setAsked('again')}
          />
        )}
        <WorkButton
          testId="stop"
          sign={Square}
          words={bar.stop}
          asks
          press={() => setAsked('stop')}
        />
      </div>
      {asked !== null && (
        <Panel title={ends[asked].title} testId="ending-panel" closed={() => setAsked(null)}>
          <p>{ends[asked].what}</p>
          <button type="button" class="urgent" data-testid={`${asked}-now`} onClick={end}>
            {ends[asked].now}
          </button>
        </Panel>
      )}
    </>
  );
}
