/** The planner against the full simulator, the textbook, and what the trade says. */
import { describe, expect, test } from 'vitest';
import { paFromMicron } from '../../../protocol/units.ts';
import { advance } from '../../../simulators/physics/advance.ts';
import { createRig, totalPressurePa } from '../../../simulators/physics/rig-state.ts';
import { effectiveSpeed } from '../../../web/plan/effective-speed.ts';
import { expectedPullDown, timeToS } from '../../../web/plan/expected-pull-down.ts';
import { batteryFor, expectedTime, volumeSpread } from '../../../web/plan/expected-time.ts';
import { planRig } from '../../../web/plan/planned-rig.ts';
import { changedRig, compareChanges } from '../../../web/plan/what-if.ts';
import { distributed, INVENTED, sheetOfInvented } from '../../support/invented-systems.ts';
import { rigWith } from '../../support/planned-rigs.ts';
import { PUMPING } from '../../support/small-rig.ts';

const DEPTHS_PA = [paFromMicron(1000), paFromMicron(500)];

function riggedAs(system: (typeof INVENTED)[number]) {
  const plan = planRig(sheetOfInvented(system));
  if (plan.kind === 'missing') throw new Error('all is entered');
  return plan.rig;
}

/** When the last of a system's ends comes down to each depth, s, by the full simulator. */
function simulatedS(system: (typeof INVENTED)[number]): number[] {
  const { setup, ends } = distributed(system);
  let state = createRig(setup);
  const highestPa = () => Math.max(...ends.map((end) => totalPressurePa(state, end)));
  return DEPTHS_PA.map((depthPa) => {
    while (highestPa() > depthPa) {
      state = advance(state, Math.max(0.02 * state.elapsedS, 0.5), PUMPING);
    }
    return state.elapsedS;
  });
}

describe.each(INVENTED)('$name, its lines cut into pieces', (system) => {
  test('takes as long as planned, within a tenth', () => {
    const curve = expectedPullDown(riggedAs(system));
    const took = simulatedS(system);
    for (const [at, depthPa] of DEPTHS_PA.entries()) {
      const ratio = (timeToS(curve, depthPa) ?? Number.NaN) / (took[at] ?? Number.NaN);
      expect(ratio, `${Math.round(took[at] ?? 0)} s to ${depthPa.toFixed(0)} Pa`).toBeGreaterThan(
        0.9,
      );
      expect(ratio).toBeLessThan(1.1);
    }
  });
});

describe('against the textbook', () => {
  /** So wide and short that it does not count. */
  const noHose = { hoseBoreM: 0.1, hoseLengthM: 0.05 };

  test('t = V/S ln(p0/p1), as published for 1 m³ at 0.1 m³/s, and long lines only add to it', () => {
    // engineeringtoolbox.com, evacuation time: from 1000 to 10 mbar 46 s, exactly 46.0517 s.
    const rig = rigWith({ ...noHose, volumeM3: 1, pumpDisplacementM3PerS: 0.1 });
    const fellS = (curve: ReturnType<typeof expectedPullDown>) =>
      (timeToS(curve, 1000) ?? Number.NaN) - (timeToS(curve, 100_000) ?? Number.NaN);
    expect(fellS(expectedPullDown(rig)) / 46.0517).toBeCloseTo(1, 2);
    const line = { share: 0.5, boreM: 0.02, lengthM: 20, after: null };
    expect(fellS(expectedPullDown({ ...rig, far: [line] }))).toBeGreaterThan(46.5);
  });

  test('a volume that varies by a quarter takes a quarter more or less', () => {
    const times = [0.75, 1, 1.25].map(
      (share) => timeToS(expectedPullDown(rigWith({ volumeM3: share * 0.02 })), 67) ?? Number.NaN,
    );
    const range = expectedTime(expectedPullDown(rigWith({ volumeM3: 0.02 })), 67, {
      low: 0.75,
      high: 1.25,
    });
    expect((range?.lowS ?? 0) / (times[0] ?? 1)).toBeCloseTo(1, 1);
    expect(range?.estimateS).toBeCloseTo(times[1] ?? 0, 6);
    expect((range?.highS ?? 0) / (times[2] ?? 1)).toBeCloseTo(1, 1);
  });
});

describe('what the trade says (common practice, no source)', () => {
  test.each(INVENTED)(
    '$name: a larger hose beats a larger pump, below 1000 micron at the latest',
    (system) => {
      const rig = riggedAs({ ...system, hose: { boreMm: 6.35, lengthM: 1.5, count: 1 } });
      const speedWith = (change: 'larger_hose' | 'larger_pump') =>
        effectiveSpeed(changedRig(rig, change) ?? rig, paFromMicron(1000))?.speedM3PerS ?? 0;
      const better = speedWith('larger_hose') / speedWith('larger_pump');
      expect(better).toBeGreaterThan(1);
      // Where a long thin line is what limits, neither helps much, and the rule has little to say.
      const isLineFirst = effectiveSpeed(rig, paFromMicron(1000))?.shares[0]?.part === 'line';
      if (!isLineFirst) expect(better).toBeGreaterThan(1.3);
    },
  );

  test('taking the cores out helps, and with a wide hose it is the core that holds back', () => {
    const rig = rigWith({ coreInPlace: true, hoseBoreM: 0.0127, pumpUltimatePa: 3 });
    const [asEntered, ...changes] = compareChanges(rig, 67);
    const targetS = (change: string) =>
      changes.find((one) => one.change === change)?.targetS ?? Number.NaN;
    expect(targetS('cores_out')).toBeLessThan(0.8 * (asEntered?.targetS ?? 0));
    expect(targetS('cores_out')).toBeLessThan(targetS('larger_pump'));
    expect(effectiveSpeed(rig, 67)?.shares[0]?.part).toBe('core');
  });
});

test('a change that is none is not offered', () => {
  expect(changedRig(rigWith(), 'cores_out')).toBeNull();
  expect(changedRig(rigWith({ hoseBoreM: 0.0191 }), 'larger_hose')).toBeNull();
  expect(changedRig(rigWith({ hoseBoreM: 0.0095 }), 'larger_hose')?.hoseBoreM).toBeCloseTo(
    0.0127,
    6,
  );
  expect(compareChanges(rigWith(), 67).map(({ change }) => change)).toEqual([
    'as_entered',
    'larger_hose',
    'second_hose',
    'shorter_hose',
    'larger_pump',
  ]);
});

test('a long thin line is what limits, and the shares make up the whole', () => {
  const far = [{ share: 0.8, boreM: 4.8e-3, lengthM: 30, after: null }];
  const speed = effectiveSpeed(rigWith({ far }), 67);
  expect(speed?.shares[0]?.part).toBe('line');
  expect(speed?.shares.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 6);
});

test('the far end comes down later than the hose’s', () => {
  const rig = rigWith({ far: [{ share: 0.8, boreM: 6e-3, lengthM: 30, after: null }] });
  expect(timeToS(expectedPullDown(rig, 'far'), 67)).toBeGreaterThan(
    2 * (timeToS(expectedPullDown(rig, 'near'), 67) ?? Infinity),
  );
});

test('a battery is enough for twice the longest time, and not for less than the shortest', () => {
  const time = { lowS: 600, estimateS: 800, highS: 1000 };
  expect(batteryFor(time, 500)).toBe('not_enough');
  expect(batteryFor(time, 1500)).toBe('close');
  expect(batteryFor(time, 2400)).toBe('enough');
});

test('the range is that of lines and vessels where their sum was taken over, else a quarter', () => {
  const [first] = INVENTED;
  if (first === undefined) throw new Error('there are some');
  const sheet = sheetOfInvented(first);
  const own = volumeSpread(sheet);
  expect(own.low).toBeGreaterThan(0.9);
  expect(own.high).toBeLessThan(1.1);
  expect(volumeSpread({ ...sheet, volumeM3: 0.01 })).toEqual({ low: 0.75, high: 1.25 });
});

describe.each(INVENTED)('$name: the speed at the far end', (system) => {
  test('is that with which the curve falls there: S = V · d ln p / dt', () => {
    const rig = riggedAs(system);
    const curve = expectedPullDown(rig);
    const fellS = (timeToS(curve, 250) ?? Number.NaN) - (timeToS(curve, 350) ?? Number.NaN);
    const seen = (rig.volumeM3 * Math.log(350 / 250)) / fellS;
    const { speedM3PerS } = effectiveSpeed(rig, Math.sqrt(250 * 350)) ?? { speedM3PerS: 0 };
    expect(speedM3PerS / seen).toBeGreaterThan(0.85);
    expect(speedM3PerS / seen).toBeLessThan(1.15);
  });
});
