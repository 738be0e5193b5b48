/** What makes each scenario the one it is, where it shows while the pump runs; and what cures it. */
import { describe, expect, it } from 'vitest';
import type { RehearsalAction } from '../../../protocol/api.ts';
import { paFromMicron } from '../../../protocol/units.ts';
import { USUAL_SCRIPT } from '../../../simulators/scenarios/usual-script.ts';
import type { ScriptStep } from '../../../simulators/scenarios/scenario.ts';
import { played, playedBy, playedInOrder } from '../../support/played-scenario.ts';

const DEEP = { belowPa: paFromMicron(250), heldS: 20, orAfterS: 40 * 60 };

/** Ten minutes after the ballast has been closed he does this, and then goes on as usual. */
function curedBy(action: RehearsalAction, afterS = 600): ScriptStep[] {
  const [on, ballast] = USUAL_SCRIPT;
  if (!on || !ballast) throw new Error('the usual script is too short');
  return [
    on,
    ballast,
    { when: { afterS }, do: action },
    { when: DEEP, do: 'isolate' },
    { when: { afterS: 400 }, do: 'end' },
  ];
}

/** How far it still fell over the last ten minutes before the valve was closed, as a share. */
function fell({ around, isolatedS }: ReturnType<typeof played>): number {
  return 1 - around(isolatedS - 20) / around(isolatedS - 620);
}

describe('a narrow way', () => {
  const NAME = 'chapel-hill-surgery';

  it('makes it much slower, from the beginning, but not stand still', () => {
    const { timeTo } = played(NAME);
    const wide = playedInOrder(NAME);
    expect(timeTo(20_000)).toBeGreaterThan(3 * wide.timeTo(20_000));
    expect(timeTo(1000)).toBeGreaterThan(12 * 60);
    expect(timeTo(500) - timeTo(1000)).toBeGreaterThan(timeTo(1000) - timeTo(3000));
    expect(fell(played(NAME))).toBeGreaterThan(0.1);
  });

  it('says nothing against the system, which holds', () => {
    expect(played(NAME).held(900) - played(NAME).held(30)).toBeLessThan(20);
  });

  it('is wider without the core: from there on it takes less than half the time', () => {
    const cured = playedBy(curedBy('take_cores_out', 60), NAME);
    const [outS = NaN] = cured.timesOf('cores_out');
    const sinceS = outS - 20;
    expect(cured.timeTo(500) - sinceS).toBeLessThan((played(NAME).timeTo(500) - sinceS) / 2);
    expect(cured.micronAt(cured.isolatedS)).toBeLessThan(250);
  });
});

describe('fouled oil', () => {
  const NAME = 'station-road-florist';

  it('makes it stand still above the target, while the system holds', () => {
    const { micronAt, isolatedS, held } = played(NAME);
    expect(micronAt(isolatedS)).toBeGreaterThan(700);
    expect(micronAt(isolatedS)).toBeLessThan(1000);
    expect(Math.abs(fell(played(NAME)))).toBeLessThan(0.03);
    expect(held(900) - held(30)).toBeLessThan(20);
  });

  it('is cured by fresh oil', () => {
    const { timesOf, isolatedS, micronAt } = playedBy(curedBy('change_oil'), NAME);
    expect(isolatedS - (timesOf('oil_changed')[0] ?? NaN)).toBeLessThan(10 * 60);
    expect(micronAt(isolatedS)).toBeLessThan(250);
  });
});

describe('a ballast left open', () => {
  const NAME = 'bridge-end-pharmacy';

  it('makes it stand still between 1000 and 2000 micron, while the system holds', () => {
    const { micronAt, isolatedS, held } = played(NAME);
    expect(micronAt(isolatedS)).toBeGreaterThan(1000);
    expect(micronAt(isolatedS)).toBeLessThan(2000);
    expect(Math.abs(fell(played(NAME)))).toBeLessThan(0.03);
    expect(held(900) - held(30)).toBeLessThan(20);
  });

  it('is cured by closing it', () => {
    const [on] = USUAL_SCRIPT;
    if (!on) throw new Error('the usual script is empty');
    const late: ScriptStep[] = [
      on,
      { when: { afterS: 1200 }, do: 'ballast_close' },
      { when: DEEP, do: 'isolate' },
      { when: { afterS: 60 }, do: 'end' },
    ];
    const { isolatedS, timesOf } = playedBy(late, NAME);
    expect(isolatedS - (timesOf('ballast_closed')[0] ?? NaN)).toBeLessThan(5 * 60);
  });
});

describe('a leak as large as what the pump draws', () => {
  const NAME = 'mill-street-barber';

  it('makes it stand still above the target, and rise at once after that', () => {
    const { micronAt, isolatedS, held, slope, truth } = played(NAME);
    expect(micronAt(isolatedS)).toBeGreaterThan(500);
    expect(Math.abs(fell(played(NAME)))).toBeLessThan(0.03);
    expect(held(60)).toBeGreaterThan(5000);
    // A straight line. Walls take up the humidity of what comes in, one part in a hundred.
    expect(slope() / (held(315) - held(15)) / (1 / 5)).toBeCloseTo(1, 1);
    expect(slope() / (truth.leakPaPerS * 60 * 7.50062)).toBeCloseTo(0.99, 2);
  });

  it('has its floor where the way to the pump draws what comes in', () => {
    // 0.06 Pa·m³/s over the floor is the speed there: for 0.9 m of 3/8-inch hose and this pump
    // 0.6 L/s at 100 Pa, by Knudsen's formula for the hose in series with the pump's 1.9 L/s.
    const floorPa = paFromMicron(played(NAME).around(played(NAME).isolatedS - 20));
    expect(floorPa).toBeGreaterThan(0.06 / 0.8e-3);
    expect(floorPa).toBeLessThan(0.06 / 0.5e-3);
  });

  it('is cured by tightening', () => {
    const { micronAt, isolatedS } = playedBy(curedBy('tighten_joints'), NAME);
    expect(micronAt(isolatedS)).toBeLessThan(250);
  });
});

describe('a hose that lets air in', () => {
  const NAME = 'orchard-close-flat';

  it('makes it stand still above the target, and is gone once valved off', () => {
    const { micronAt, isolatedS, held, truth } = played(NAME);
    expect(truth.leakPaPerS).toBe(0);
    expect(micronAt(isolatedS)).toBeGreaterThan(500);
    expect(Math.abs(fell(played(NAME)))).toBeLessThan(0.03);
    expect(held(900) - held(30)).toBeLessThan(20);
  });

  it('is cured by a new gasket', () => {
    const { micronAt, isolatedS } = playedBy(curedBy('tighten_joints'), NAME);
    expect(micronAt(isolatedS)).toBeLessThan(250);
  });
});

describe('a part that is shut off', () => {
  const NAME = 'meadow-view-nursery';

  it('makes it come down too fast by far', () => {
    const whole = playedInOrder(NAME);
    for (const micron of [1000, 500, 250]) {
      expect(played(NAME).timeTo(micron)).toBeLessThan(0.55 * whole.timeTo(micron));
    }
  });

  it('shows when the valve is opened: the rest was full of air', () => {
    const { timesOf, rows } = playedBy(curedBy('open_sections', 200), NAME);
    const [openedS = NaN] = timesOf('sections_opened');
    expect(rows[openedS]?.pressurePa).toBeLessThan(paFromMicron(500));
    expect(rows.slice(openedS, openedS + 10).some(({ pressurePa }) => pressurePa === null)).toBe(
      true,
    );
  });
});

describe('a sensor at the pump', () => {
  const NAME = 'copper-row-workshop';

  it('shows far less than the system has while gas flows', () => {
    const system = playedInOrder(NAME);
    const seen = played(NAME);
    for (const elapsedS of [120, 300, seen.isolatedS - 30]) {
      expect(seen.around(elapsedS)).toBeLessThan(0.5 * system.around(elapsedS));
    }
  });

  it('falls when the system is valved off, and stays down', () => {
    const { micronAt, isolatedS, held } = played(NAME);
    expect(held(60)).toBeLessThan(0.5 * micronAt(isolatedS));
    expect(held(900)).toBeLessThan(held(60));
  });
});

describe('a battery that ends', () => {
  const NAME = 'north-quay-boathouse';

  it('turns the curve upward in the midst of the pull-down', () => {
    const { micronAt, timesOf, truth } = played(NAME);
    const endS = 20 + 450;
    expect(truth.toldS).toBeGreaterThanOrEqual(endS);
    expect(truth.toldS).toBeLessThan(endS + 10);
    expect(micronAt(endS)).toBeGreaterThan(250);
    expect(micronAt(endS)).toBeLessThan(500);
    // With the valve still open.
    expect(timesOf('isolated')[0]).toBeGreaterThan(endS + 600);
    expect(micronAt(endS + 600)).toBeGreaterThan(10_000);
  });

  it('is cured by a fresh one, and the system holds', () => {
    const { timesOf, isolatedS, held } = played(NAME);
    expect(isolatedS - (timesOf('reopened')[0] ?? NaN)).toBeLessThan(10 * 60);
    expect(held(900) - held(30)).toBeLessThan(30);
  });
});

describe('a large system in order', () => {
  const NAME = 'guildhall-annex';

  it('takes its time, without standing still', () => {
    const { timeTo, truth } = played(NAME);
    expect(truth.cause).toBe('in_order');
    expect(timeTo(1000)).toBeGreaterThan(8 * 60);
    expect(timeTo(250)).toBeGreaterThan(40 * 60);
    expect(fell(played(NAME))).toBeGreaterThan(0.05);
  });

  it('comes into balance and holds', () => {
    const { held } = played(NAME);
    expect(held(900)).toBeLessThan(300);
    expect(Math.abs(held(900) - held(600))).toBeLessThan(10);
  });
});

describe('high up', () => {
  it('comes down as at sea level, and holds', () => {
    const { timeTo, held } = played('summit-road-refuge');
    expect(timeTo(1000)).toBeLessThan(3 * 60);
    expect(timeTo(250)).toBeLessThan(12 * 60);
    expect(held(900)).toBeLessThan(350);
    expect(held(900) - held(600)).toBeLessThan(5);
  });
});
