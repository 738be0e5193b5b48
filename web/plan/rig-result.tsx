/** What a rig should manage: times, speed, and a bar for each part that holds it back. */
import type { Sheet } from '../../protocol/sheet.ts';
import { choices } from '../store/choices.ts';
import { saySetting } from '../words/say-pressure.ts';
import {
  FIRST_DEPTH_PA,
  RIG_WORDS,
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
  const unit = choices.value.pressure;
  if (plan.kind === 'missing' || curve === null) {
    return <p data-testid="rig-missing">{plan.kind === 'missing' && sayMissing(plan.missing)}</p>;
  }
  const { targetPa } = sheet;
  const speed = effectiveSpeed(plan.rig, targetPa);
  const timeTo = (pressurePa: number) =>
    pressurePa > plan.rig.pumpUltimatePa
      ? sayExpectedTime(timeToS(curve, pressurePa))
      : RIG_WORDS.never;
  const limit = speed?.shares[0]?.part;
  return (
    <section class="rig-result" data-testid="rig-result">
      <dl>
        <dt>To {saySetting(FIRST_DEPTH_PA, unit)}</dt>
        <dd>{timeTo(FIRST_DEPTH_PA)}</dd>
        <dt>To the target, {saySetting(targetPa, unit)}</dt>
        <dd>{timeTo(targetPa)}</dd>
        {speed !== null && (
          <>
            <dt>Pumping speed there</dt>
            <dd>{saySpeed(speed.speedM3PerS, plan.rig.pumpDisplacementM3PerS)}</dd>
          </>
        )}
      </dl>
      <p class="rig-limit">
        {limit === undefined ? RIG_WORDS.ultimateTooHigh : sayLimit(limit, targetPa, unit)}
      </p>
      <ul class="rig-shares">
        {speed?.shares.map(({ part, share }) => (
          <li key={part}>
            <span>{sayShare(part, share)}</span>
            <i style={{ width: `${share * 100}%` }} />
          </li>
        ))}
      </ul>
      {plan.assumed.length > 0 && <p>{sayAssumed(plan.assumed)}</p>}
      <p class="quiet">{RIG_WORDS.anAid}</p>
    </section>
  );
}
