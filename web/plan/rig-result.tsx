/** What a rig should manage: times, speed, and a bar for each part that holds it back. */
import type { Sheet } from '../../protocol/sheet.ts';
import { speech } from '../store/speech.ts';
import { saySetting } from '../words/say-pressure.ts';
import {
  FIRST_DEPTH_PA,
  sayAssumed,
  sayExpectedTime,
  sayLimit,
  sayMissing,
  sayShare,
  saySpeed,
} from '../words/say-rig.ts';
import { effectiveSpeed } from './effective-speed.ts';
import { timeToS } from './expected-pull-down.ts';
import { planOf } from './plan-of.ts';

export function RigResult({ sheet }: { readonly sheet: Sheet }) {
  const { plan, curve } = planOf(sheet);
  const words = speech.value.wording.rig;
  if (plan.kind === 'missing' || curve === null) {
    return (
      <p data-testid="rig-missing">
        {plan.kind === 'missing' && sayMissing(plan.missing, speech.value)}
      </p>
    );
  }
  const { targetPa } = sheet;
  const speed = effectiveSpeed(plan.rig, targetPa);
  const timeTo = (pressurePa: number) =>
    pressurePa > plan.rig.pumpUltimatePa
      ? sayExpectedTime(timeToS(curve, pressurePa), speech.value)
      : words.never;
  const limit = speed?.shares[0]?.part;
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
      </dl>
      <p class="rig-limit">
        {limit === undefined ? words.ultimateTooHigh : sayLimit(limit, targetPa, speech.value)}
      </p>
      <ul class="rig-shares">
        {speed?.shares.map(({ part, share }) => (
          <li key={part}>
            <span>{sayShare(part, share, speech.value)}</span>
            <i style={{ width: `${share * 100}%` }} />
          </li>
        ))}
      </ul>
      {plan.assumed.length > 0 && <p>{sayAssumed(plan.assumed, speech.value)}</p>}
      <p class="quiet">{words.anAid}</p>
    </section>
  );
}
