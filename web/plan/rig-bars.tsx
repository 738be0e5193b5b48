/** What holds a rig back at three pressures on the way down: a bar for each part, so that one looks rather than reads. */
import { paFromMicron } from '../../protocol/units.ts';
import { speech } from '../store/speech.ts';
import { saySetting } from '../words/say-pressure.ts';
import { FIRST_DEPTH_PA, sayShare } from '../words/say-rig.ts';
import { effectiveSpeed, type RigPart } from './effective-speed.ts';
import type { PlannedRig } from './planned-rig.ts';

const HIGH_PA = paFromMicron(10_000);
/** As the gas goes, from the system to the pump. */
const ON_THE_WAY: readonly RigPart[] = ['line', 'core', 'hose', 'pump'];

export function RigBars({
  rig,
  targetPa,
}: {
  readonly rig: PlannedRig;
  readonly targetPa: number;
}) {
  const words = speech.value.wording.planning;
  const depthsPa = [...new Set([HIGH_PA, FIRST_DEPTH_PA, targetPa])].sort((a, b) => b - a);
  const speeds = depthsPa.map((depthPa) => ({ depthPa, speed: effectiveSpeed(rig, depthPa) }));
  const parts = ON_THE_WAY.filter((part) =>
    speeds.some(({ speed }) => speed?.shares.some((share) => share.part === part)),
  );
  return (
    <div class="rig-bars">
      {speeds.map(({ depthPa, speed }) => (
        <section key={depthPa} data-testid="rig-bars">
          <h2>{words.barsAt({ pressure: saySetting(depthPa, speech.value) })}</h2>
          {speed === null ? (
            <p>{words.nothingThere}</p>
          ) : (
            <ul class="rig-shares">
              {parts.map((part) => {
                const share = speed.shares.find((one) => one.part === part)?.share ?? 0;
                return (
                  <li key={part} class={part === speed.shares[0]?.part ? 'limits' : ''}>
                    <span>{sayShare(part, share, speech.value)}</span>
                    <i style={{ width: `${share * 100}%` }} />
                  </li>
                );
              })}
            </ul>
          )}
        </section>
      ))}
    </div>
  );
}
