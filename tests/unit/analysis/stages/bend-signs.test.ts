/** Which sharp bends are a valve that was opened again, and which another rig: each sign by itself. */
import type { Stage } from '../../../../web/analysis/conclusions.ts';
import type { Bend } from '../../../../web/analysis/stages/bend.ts';
import { isReopening } from '../../../../web/analysis/stages/reopening-signs.ts';
import { rigChange } from '../../../../web/analysis/stages/rig-change.ts';
import { describe, expect, test } from 'vitest';

/** Downward at 50 Pa: from a fall of 1 % a minute to one of 12 % a minute, by a tenth so far. */
const BEND: Bend = {
  ...{ atS: 700, lengthS: 200, sigmas: 20, sharpness: 30 },
  ...{ beforePerS: -0.01 / 60, afterPerS: -0.12 / 60, since: -0.1, log: Math.log(50) },
  ...{ steadyBefore: true, dip: 0, stepShare: 0.001 },
};

describe('a hold that is opened to the pump again', () => {
  const stage = (recognisedBy: Stage['recognisedBy']): Stage => ({
    ...{ name: 'rise', sinceS: 500, recognisedBy, alternatives: [] },
  });
  const is = (change: Partial<Bend>, risen = 0.2, by: Stage['recognisedBy'] = 'curve') =>
    isReopening({ ...BEND, ...change }, stage(by), risen);

  test('falls by three hundredths, faster than what cools', () => {
    expect(is({})).toBe(true);
    expect(is({ since: -0.031 })).toBe(true);
    expect(is({ since: -0.029 })).toBe(false);
    expect(is({ afterPerS: -0.031 / 60 })).toBe(true);
    expect(is({ afterPerS: -0.029 / 60 })).toBe(false);
    expect(is({ since: 0.1, afterPerS: 0.12 / 60 })).toBe(false);
  });

  test('falls by more than the display’s steps, and by a part of what it had risen', () => {
    expect(is({ stepShare: 0.039 })).toBe(true);
    expect(is({ stepShare: 0.041 })).toBe(false);
    expect(is({}, 0.66)).toBe(true);
    expect(is({}, 0.68)).toBe(false);
  });

  test('that was marked as shut falls by a quarter of its pressure', () => {
    expect(is({}, 0.2, 'mark')).toBe(false);
    expect(is({ since: -0.31 }, 0.2, 'mark')).toBe(true);
    expect(is({ since: -0.29 }, 0.2, 'mark')).toBe(false);
  });
});

describe('a rig that becomes another', () => {
  const changed = (change: Partial<Bend>, rangeEndPa = Infinity) =>
    rigChange({ ...BEND, ...change }, rangeEndPa);

  test('shows in a fall that quickens, sharply and out of the noise', () => {
    expect(changed({})).toEqual({ atS: 700, sure: true });
    expect(changed({ sigmas: 7.9 })).toBeNull();
    expect(changed({ sigmas: 8 })).not.toBeNull();
    expect(changed({ sharpness: 8.9 })).toBeNull();
    expect(changed({ sharpness: 9 })).not.toBeNull();
  });

  test('falls by two fifths more than before, and by a twentieth a minute', () => {
    expect(changed({ beforePerS: -0.085 / 60 })).not.toBeNull();
    expect(changed({ beforePerS: -0.087 / 60 })).toBeNull();
    expect(changed({ afterPerS: -0.051 / 60 })).not.toBeNull();
    expect(changed({ afterPerS: -0.049 / 60 })).toBeNull();
    expect(changed({ beforePerS: 0.01, afterPerS: -0.06 / 60 })).not.toBeNull();
  });

  test('has moved the pressure by three hundredths, and by more than the display’s steps', () => {
    expect(changed({ since: -0.031 })).not.toBeNull();
    expect(changed({ since: -0.029 })).toBeNull();
    expect(changed({ stepShare: 0.039 })).not.toBeNull();
    expect(changed({ stepShare: 0.041 })).toBeNull();
  });

  test('does not show next to the end of the range, and is not sure where water boils', () => {
    expect(changed({}, 63)).not.toBeNull();
    expect(changed({}, 62)).toBeNull();
    expect(changed({ log: Math.log(500) })).toEqual({ atS: 700, sure: false });
    expect(changed({ log: Math.log(900) })).toEqual({ atS: 700, sure: true });
  });
});
