import { describe, expect, it } from 'vitest';
import { Helper } from '../../../simulators/scenarios/helper.ts';

describe('the helper', () => {
  it('waits, then acts once', () => {
    const helper = new Helper([{ when: { afterS: 20 }, do: 'pump_on' }]);
    expect(helper.due(19, null)).toBeNull();
    expect(helper.due(20, null)).toBe('pump_on');
    expect(helper.due(21, null)).toBeNull();
  });

  it('counts from the step before', () => {
    const helper = new Helper([
      { when: { afterS: 20 }, do: 'pump_on' },
      { when: { afterS: 20 }, do: 'end' },
    ]);
    expect(helper.due(30, null)).toBe('pump_on');
    expect(helper.due(49, null)).toBeNull();
    expect(helper.due(50, null)).toBe('end');
  });

  it('asks that a depth be held without a break, an over-range reading included', () => {
    const helper = new Helper([{ when: { belowPa: 33, heldS: 3 }, do: 'isolate' }]);
    const readings = [32, 32, 32, 33, 32, 32, null, 32, 32, 32, 32];
    const acts = readings.map((pressurePa, second) => helper.due(second, pressurePa));
    expect(acts.indexOf('isolate')).toBe(10);
    expect(acts.filter((act) => act !== null)).toHaveLength(1);
  });
});
