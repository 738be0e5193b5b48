/** What the conformance check finds of each sensor that breaks a rule. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { RULE_BREAKERS } from '../../simulators/sensor/rule-breakers.ts';
import { checksThat, ExaminingRoom } from '../support/examined.ts';

interface Findings {
  /** These must fail. */
  readonly own: readonly string[];
  /** These may as well, as they stand on the same. */
  readonly also?: readonly string[];
}

const COUNTING = ['sequence', 'live-unbroken', 'boot-over-link', 'measures-without-link'];
const TIMING = ['interval', 'control-interval', 'measures-without-link'];

const FINDINGS: Readonly<Record<string, Findings>> = {
  nameless: { own: ['local-name'] },
  'gone-after-link': { own: ['advertises-again'] },
  mute: { own: ['connectable'], also: ['service'] },
  'empty-service': { own: ['reading', 'capabilities'] },
  'no-reading': { own: ['reading'] },
  'no-capabilities': { own: ['capabilities'] },
  'reading-not-readable': { own: ['reading'] },
  'no-battery': { own: ['battery'] },
  'no-device-information': { own: ['device-information'] },
  'short-reading': { own: ['reading-length'] },
  'long-reading': { own: ['reading-length'] },
  'reserved-bits': { own: ['reserved-bits'] },
  'standing-sequence': {
    own: ['sequence'],
    also: [...COUNTING, 'count-range', 'report-bytes', 'report-whole', 'report-end'],
  },
  'skipping-sequence': {
    own: ['sequence'],
    also: [...COUNTING, ...TIMING, 'store-deep', 'missed-readings'],
  },
  'backward-uptime': { own: ['uptime'], also: [...TIMING, 'boot-over-link'] },
  'fast-uptime': { own: ['uptime'], also: TIMING },
  'fault-with-pressure': { own: ['fault-pressure'] },
  'old-value-shown': { own: ['read-latest'] },
  'twice-notified': { own: ['sequence'], also: ['uptime', 'live-unbroken', 'interval'] },
  flood: { own: ['sequence'], also: ['uptime', 'live-unbroken', ...TIMING] },
  'never-notified': { own: ['notifications'] },
  slow: { own: ['interval'], also: [...TIMING, 'notifications'] },
  // Only a restart shows it, and nobody restarts a sensor by radio.
  'boot-kept': { own: [] },
  'boot-changed': { own: ['boot-over-link'] },
  'short-capabilities': { own: ['capabilities-length'] },
  'other-major-version': { own: ['capabilities-version'] },
  'upside-down-range': { own: ['capabilities-values'] },
  // It measures every millisecond, and its clock counts whole ones.
  'zero-interval': { own: ['capabilities-values'], also: ['uptime', 'live-unbroken'] },
  'takes-nonsense': { own: ['control-refuses'], also: ['control-interval'] },
  'other-refusal': { own: ['control-refuses'] },
  'interval-ignored': { own: ['control-interval'] },
  'half-a-store': { own: ['store-whole'], also: ['buffer-depth'] },
  'no-store': { own: ['buffer-depth', 'store-offered'] },
  'shallow-store': {
    own: ['store-deep'],
    also: ['count-range', 'report-whole', 'missed-readings'],
  },
  'report-backwards': { own: ['report-order'] },
  'report-twice': { own: ['report-whole'], also: ['report-last'] },
  'report-lacks-one': { own: ['report-whole'], also: ['missed-readings'] },
  'report-altered': { own: ['report-bytes'] },
  'report-open-end': {
    own: ['report-end'],
    also: ['report-last', 'no-records', 'wrong-operator', 'missed-readings'],
  },
  'report-wrong-outcome': { own: ['report-end'], also: ['wrong-operator', 'missed-readings'] },
  'count-wrong': { own: ['count-range'], also: ['report-last', 'no-records'] },
  'delete-taken': { own: ['refuses-delete'] },
  'any-operator': {
    own: ['wrong-operator', 'unknown-operator', 'wrong-operand', 'other-filter'],
  },
  'abort-ignored': { own: ['abort'], also: ['nothing-to-abort'] },
  'asks-no-configuration': { own: ['needs-configuration'], also: ['configurations-forgotten'] },
  'takes-two-reports': { own: ['one-at-a-time'] },
};

/** @param which share of them: each file has a process of its own */
export function describeRuleBreakers(which: 0 | 1): void {
  describe(`a sensor that breaks a rule, share ${which}`, () => {
    let room: ExaminingRoom;
    beforeAll(async () => {
      room = await ExaminingRoom.open();
    });
    afterAll(() => room.close());

    it('is in the list of findings', () => {
      expect(Object.keys(FINDINGS).toSorted()).toEqual(
        RULE_BREAKERS.map(({ name }) => name).toSorted(),
      );
    });

    const share = RULE_BREAKERS.filter((_, place) => place % 2 === which);
    it.each(share)('$name: it $does', async ({ name, options }) => {
      const { own, also = [] } = FINDINGS[name] ?? { own: ['nothing'] };
      const failed = checksThat(await room.examineOne(options), 'failed');
      expect(failed).toEqual(expect.arrayContaining([...own]));
      expect(failed.filter((id) => ![...own, ...also].includes(id))).toEqual([]);
    });
  });
}
