/** What a rig should manage: times with their range, speed, battery, and a bar for each part that holds it back. */
import type { Sheet } from '../../protocol/sheet.ts';
import { speech } from '../store/speech.ts';
import { sayDuration } from '../words/say-duration.ts';
import { saySetting } from '../words/say-pressure.ts';
import {
  FIRST_DEPTH_PA,
  sayAssumed,
  sayExpectedRange,
  sayLimit,
  sayMissing,
  saySpeed,
} from '../words/say-rig.ts';
import { effectiveSpeed } from './effective-speed.ts';
import { batteryFor, expectedTime, volumeSpread } from './expected-time.ts';
import { planOf } from './plan-of.ts';
import { RigBars } from './rig-bars.tsx';
import { WhatIf } from './what-if-table.tsx';

export function RigResult({ sheet }: { readonly sheet: Sheet }) {
  const { plan, curve } = planOf(sheet);
  const { rig: words, planning } = speech.value.wording;
  if (plan.kind === 'missing' || curve === null) {
    return (
      <p data-testid="rig-missing">
        {plan.kind === 'missing' && sayMissing(plan.missing, speech.value)}
      </p>
    );
  }
  const { targetPa, pumpBatteryS } = sheet;
  const speed = effectiveSpeed(plan.rig, targetPa);
  const spread = volumeSpread(sheet);
  const timeTo = (pressurePa: number) =>
    pressurePa > plan.rig.pumpUltimatePa
      ? sayExpectedRange(expectedTime(curve, pressurePa, spread), speech.value)
      : words.never;
  const limit = speed?.shares[0]?.part;
  const target = expectedTime(curve, targetPa, spread);
  return (
    <section class="rig-result" data-testid="rig-result">
      <dl>
        <dt>{words.timeTo({ pressure: saySetting(FIRST_DEPTH_PA, speech.value) })}</dt>
        <dd>{timeTo(FIRST_DEPTH_PA)}</dd>
        <dt>{words.timeToTarget({ pressure: saySetting(targetPa, speech.value) })}</dt>
        <dd>{timeTo(targetPa)}</dd>
        {speed !== null && (
          <>
            <dt>{words.speedThere}</dt>
            <dd>{saySpeed(speed.speedM3PerS, plan.rig.pumpDisplacementM3PerS, speech.value)}</dd>
          </>
        )}
        {pumpBatteryS !== null && target !== null && (
          <>
            <dt>{planning.battery.name}</dt>
            <dd data-testid="battery-enough">
              {planning.battery[batteryFor(target, pumpBatteryS)]({
                lasts: sayDuration(pumpBatteryS),
              })}
            </dd>
          </>
        )}
      </dl>
      <p class="rig-limit">
        {limit === undefined ? words.ultimateTooHigh : sayLimit(limit, targetPa, speech.value)}
      </p>
      <RigBars rig={plan.rig} targetPa={targetPa} />
      <WhatIf rig={plan.rig} targetPa={targetPa} />
      {plan.assumed.length > 0 && <p>{sayAssumed(plan.assumed, speech.value)}</p>}
      <p class="quiet">{words.anAid}</p>
    </section>
  );
}
