/** Says, small, how a pull-down departs from what the rig should manage. */
import type { FollowedRecording } from '../store/followed-recording.ts';
import { speech } from '../store/speech.ts';
import { sayDeviation } from '../words/say-plan.ts';
import { deviationsFrom } from './deviation.ts';
import type { ExpectedCurve } from './expected-pull-down.ts';
import { volumeSpread } from './expected-time.ts';
import { expectedStartS } from './place-expected.ts';
import { thinnedFall } from './thinned-fall.ts';

interface DeviationNoteProps {
  readonly followed: FollowedRecording;
  /** At the end of the system that comes down last. */
  readonly curve: ExpectedCurve;
}

export function DeviationNote({ followed, curve }: DeviationNoteProps) {
  const conclusions = followed.conclusions.value;
  const startS = expectedStartS(curve, followed.readings, conclusions);
  if (conclusions === null || startS === null || conclusions.pullDownS === null) return null;
  const { nowS, forecast, pullDownS } = conclusions;
  const sheet = followed.sheet.value;
  const deviations = deviationsFrom({
    points: thinnedFall(followed.readings, pullDownS, nowS),
    nowS,
    startS,
    curve,
    volume: volumeSpread(sheet),
    forecast,
  });
  return (
    <>
      {deviations.map((deviation) => (
        <p key={deviation.kind} class="faster" data-testid={`deviates-${deviation.kind}`}>
          {sayDeviation(deviation, nowS, speech.value)}
        </p>
      ))}
    </>
  );
}
