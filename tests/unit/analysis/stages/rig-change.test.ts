/** Changes of the rig in mid-run that nobody marked. */
import type { Mark } from '../../../../protocol/mark.ts';
import { DEFAULT_SHEET } from '../../../../protocol/sheet.ts';
import type { Bend } from '../../../../web/analysis/stages/bend.ts';
import { rigChange } from '../../../../web/analysis/stages/rig-change.ts';
import { stageBins } from '../../../../web/analysis/stages/stage-bins.ts';
import { recogniseStages } from '../../../../web/analysis/stages/stages.ts';
import {
  between,
  historyOf,
  logBetween,
  normal,
  seeded,
} from '../../../support/invented-curves.ts';
import { expect, test } from 'vitest';

function changed(curve: (t: number) => number, lengthS: number, marks: Mark[] = [], noise = 0.004) {
  const random = seeded(3);
  const history = historyOf(
    Array.from({ length: lengthS + 1 }, (_, elapsedS) => ({
      elapsedS,
      pressurePa: curve(elapsedS) * (1 + noise * normal(random)),
      condition: 'ok' as const,
      temperatureC: null,
    })),
  );
  return recogniseStages(stageBins(history, lengthS), marks, DEFAULT_SHEET.targetPa, lengthS)
    .rigChanged;
}

test('a sum of decays is none, whatever the decays', () => {
  for (let seed = 1; seed <= 40; seed += 1) {
    const random = seeded(seed);
    const decays = Array.from({ length: 4 }, () => ({
      pa: logBetween(random, 20, 3000),
      perS: logBetween(random, 3e-4, 0.1),
    }));
    const floorPa = between(random, 2, 120);
    const curve = (t: number) =>
      decays.reduce((sum, { pa, perS }) => sum + pa * Math.exp(-t * perS), floorPa);
    expect(changed(curve, 1500), `seed ${seed}`).toBeNull();
  }
});

/** A thin way until 600 s, then three times as fast; far above where water boils. */
function coreOut(t: number): number {
  const slow = 5000 * Math.exp(-Math.min(t, 600) / 500);
  return t < 600 ? slow : slow * Math.exp(-(t - 600) / 160);
}

test('a fall that quickens at once is one, to some seconds', () => {
  expect(changed(coreOut, 595)).toBeNull();
  const found = changed(coreOut, 660);
  expect(found?.sure).toBe(true);
  expect(Math.abs((found?.atS ?? 0) - 600)).toBeLessThan(10);
});

test('a mark says it better', () => {
  const mark: Mark = { id: 1, kind: 'cores_out', elapsedS: 610, text: '', madeBy: 'hand' };
  expect(changed(coreOut, 660, [mark])).toBeNull();
  expect(changed(coreOut, 660, [{ ...mark, kind: 'note' }])).not.toBeNull();
});

test('where water boils it is not sure', () => {
  const dried = (t: number) => (t < 600 ? 450 : 20 + 430 * Math.exp(-(t - 600) / 60));
  expect(changed(dried, 640)).toMatchObject({ sure: false });
});

test('a part full of air that is opened to what is pumped shows by a rush up and down again', () => {
  const opened = (t: number) => {
    const floor = 30 + 3000 * Math.exp(-t / 30);
    return t < 900 ? floor : floor + 8000 * Math.exp(-(t - 900) / 15) * (1 - Math.exp(-(t - 899)));
  };
  const found = changed(opened, 1000);
  expect(found?.sure).toBe(true);
  expect(Math.abs((found?.atS ?? 0) - 900)).toBeLessThan(20);
});

/** Gas far above where water boils falls at 6 % a minute, and then twice as fast, beyond any doubt. */
const QUICKENED: Bend = {
  ...{ atS: 600, lengthS: 300, sigmas: 20, sharpness: 40, beforePerS: -1e-3, afterPerS: -2e-3 },
  ...{ since: -0.06, log: Math.log(3000), steadyBefore: true, dip: 0, stepShare: 0.001 },
};

test('a fall that quickens is one by each of its signs, and without any of them it is none', () => {
  const isOne = (change: Partial<Bend>, rangeEndPa = Infinity) =>
    rigChange({ ...QUICKENED, ...change }, rangeEndPa) !== null;
  expect(rigChange(QUICKENED, Infinity)).toEqual({ atS: 600, sure: true });
  expect([8, 7.9].map((sigmas) => isOne({ sigmas }))).toEqual([true, false]);
  expect([9, 8.9].map((sharpness) => isOne({ sharpness }))).toEqual([true, false]);
  // By 1.4 at least, to 5 % a minute at least.
  expect([-1.41e-3, -1.39e-3].map((afterPerS) => isOne({ afterPerS }))).toEqual([true, false]);
  const slow = { beforePerS: 0 };
  expect([-8.4e-4, -8.3e-4].map((afterPerS) => isOne({ ...slow, afterPerS }))).toEqual([
    true,
    false,
  ]);
  // By 3 %, and by two and a half of the sensor’s steps.
  expect([-0.031, -0.029].map((since) => isOne({ since }))).toEqual([true, false]);
  expect([0.0239, 0.0241].map((stepShare) => isOne({ stepShare }))).toEqual([true, false]);
  // Next to the end of its range a sensor bends by itself.
  expect([3760, 3740].map((rangeEndPa) => isOne({}, rangeEndPa))).toEqual([true, false]);
  expect(isOne({ since: 0.06, afterPerS: 2e-3 })).toBe(false);
});
