/** The next thing to do, as data: pure, from conclusions, sheet and marks. The words are elsewhere. */
import type { Mark } from '../../protocol/mark.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import { paFromMicron } from '../../protocol/units.ts';
import { isChargeReleased } from '../analysis/closing/closed-up.ts';
import type { Conclusions, Forecast, Rise } from '../analysis/conclusions.ts';
import { nextClosingStep } from '../analysis/closing/next-closing-step.ts';
import type { NextStep } from '../words/say-next-step.ts';

/** Common practice, no source: the ballast is closed at 3000 micron, boil-off or not. */
const CLOSE_BALLAST_PA = paFromMicron(3000);
/** An open ballast is itself a plateau far below this; a deeper curve has none open. */
const BALLAST_LONG_CLOSED_PA = paFromMicron(1000);

/** From this probability on an earlier hold has shown a leak. A setting of ours. */
const SURELY_LEAKS = 0.8;

export function nextStep(conclusions: Conclusions, sheet: Sheet, marks: readonly Mark[]): NextStep {
  const { stage, forecast, rise } = conclusions;
  const closeUp = () =>
    ({
      kind: 'close_up',
      step: nextClosingStep(conclusions, sheet, marks),
      passed: rise?.verdict === 'tight_dry',
    }) as const;
  // Once the charge is in nothing else can be done, whatever the verdict was.
  const isPumped = stage.name === 'pull_down' || stage.name === 'at_depth';
  if (!isPumped && stage.name !== 'waiting' && isChargeReleased(marks)) return closeUp();
  switch (stage.name) {
    case 'waiting':
      return { kind: 'start_pump' };
    case 'vented':
    case 'nitrogen_break':
      return { kind: 'pump_again' };
    case 'pump_stopped':
      return { kind: 'valve_off_at_once' };
    case 'at_depth':
      return valveOff(conclusions, sheet);
    case 'rise':
      return rise === null ? { kind: 'hold_again' } : afterIsolation(rise, closeUp);
    case 'pull_down':
      return whilePumping(conclusions, forecast, sheet, marks);
  }
}

function whilePumping(
  conclusions: Conclusions,
  forecast: Forecast | null,
  sheet: Sheet,
  marks: readonly Mark[],
): NextStep {
  const leading = forecast?.causes[0]?.cause;
  const pressurePa = conclusions.pressurePa;
  if (conclusions.isolationDepthReachedS !== null) {
    return valveOff(conclusions, sheet);
  }
  if (leading === 'ballast' && sheet.pumpBallast !== 'no')
    return { kind: 'close_ballast', known: true };
  if (leading === 'rising') return { kind: 'look_for_inflow' };
  const ballast = ballastState(marks);
  if (pressurePa !== null && pressurePa <= CLOSE_BALLAST_PA) {
    if (ballast === 'open') return { kind: 'close_ballast', known: true };
    const isNone =
      sheet.pumpBallast === 'no' || sheet.tickedSteps.some(({ step }) => step === 'ballast_close');
    if (ballast === 'unknown' && !isNone && pressurePa > BALLAST_LONG_CLOSED_PA) {
      return { kind: 'close_ballast', known: false };
    }
  }
  if (forecast?.outcome === 'levels_off') {
    return { kind: leading === 'sensor' ? 'look_at_sensor' : 'find_cause' };
  }
  if (leading === 'boil_off') return { kind: 'let_it_boil' };
  return { kind: 'keep_pumping', isolateAtPa: sheet.isolateAtPa };
}

/** After a hold that leaked too much a new one only shows whether that was a leak. */
function valveOff({ holdChance }: Conclusions, { isolateAtPa }: Sheet): NextStep {
  const hasLeaked = (holdChance?.reasons ?? []).some(
    (reason) => reason.kind === 'earlier_hold' && reason.leaks >= SURELY_LEAKS,
  );
  return { kind: 'valve_off', isolateAtPa, hasLeaked };
}

function afterIsolation(rise: Rise, closeUp: () => NextStep): NextStep {
  if (rise.reservations.includes('not_the_system')) return { kind: 'sensor_to_system' };
  if (rise.reservations.includes('falling')) return { kind: 'check_valve' };
  switch (rise.verdict) {
    case 'tight_dry': {
      const leftS = rise.endOfHold.atS - rise.heldS;
      return leftS > 0 ? { kind: 'finish_hold', leftS } : closeUp();
    }
    case 'moisture':
      return { kind: 'nitrogen_break' };
    case 'leak':
      return { kind: 'stub_test' };
    case 'leak_and_moisture':
      return { kind: 'stub_test_then_break' };
    case 'undecided':
      if (rise.moreS !== null) return { kind: 'wait_for_verdict', moreS: rise.moreS };
      return rise.reservations.includes('ice_possible')
        ? { kind: 'warm_it' }
        : { kind: 'hold_again' };
  }
}

function ballastState(marks: readonly Mark[]): 'open' | 'closed' | 'unknown' {
  const latest = marks
    .filter((mark) => mark.kind === 'ballast_opened' || mark.kind === 'ballast_closed')
    .reduce<Mark | null>(
      (last, mark) => (last !== null && last.elapsedS > mark.elapsedS ? last : mark),
      null,
    );
  if (latest === null) return 'unknown';
  return latest.kind === 'ballast_opened' ? 'open' : 'closed';
}
