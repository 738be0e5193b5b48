import { describe, expect, test } from 'vitest';
import {
  mayFollow,
  PHASE_RULES,
  SESSION_PHASES,
} from '../../../server/sources/radio/session-phases.ts';
import { RADIO_TIMING } from '../../../server/sources/radio/timing.ts';

describe('the phases of a sensor', () => {
  test.each(SESSION_PHASES)('%s has a limit, and a way on', (phase) => {
    const { next, limit } = PHASE_RULES[phase];
    expect(RADIO_TIMING[limit]).toBeGreaterThan(0);
    expect(RADIO_TIMING[limit]).toBeLessThanOrEqual(60_000);
    expect(next.filter((other) => other !== phase).length).toBeGreaterThan(0);
  });

  test('lead from each of them to live readings, and to being lost', () => {
    for (const phase of SESSION_PHASES) {
      const reached = new Set<string>([phase]);
      for (let steps = 0; steps < SESSION_PHASES.length; steps += 1) {
        for (const from of SESSION_PHASES.filter((one) => reached.has(one))) {
          for (const to of PHASE_RULES[from].next) reached.add(to);
        }
      }
      expect(reached).toEqual(new Set(SESSION_PHASES));
    }
  });

  test('are entered only from where they may follow', () => {
    expect(mayFollow(null, 'connecting')).toBe(true);
    expect(mayFollow('lost', 'live')).toBe(false);
    expect(mayFollow('found', 'live')).toBe(false);
    expect(mayFollow('stale', 'live')).toBe(true);
  });
});
