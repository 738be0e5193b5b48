/** Sensors that break a rule of the profile each, as data: for the bridge's tests and the conformance command's. */
import {
  BATTERY_SERVICE_UUID,
  CAPABILITIES_UUID,
  CONTROL_UUID,
  DEVICE_INFORMATION_UUID,
  READING_UUID,
  RECORD_ACCESS_UUID,
  STORED_READINGS_UUID,
} from '../../protocol/profile.ts';
import { encodeCount, encodeResponse, opCodeNumber } from '../../protocol/record-access.ts';
import { ATT_ERROR } from './att-server.ts';
import { changing, emptied, lacking, withoutService } from './changed-services.ts';
import type { VirtualSensorOptions } from './virtual-sensor.ts';

export interface RuleBreaker {
  readonly name: string;
  /** What it does, for a list. */
  readonly does: string;
  readonly options: VirtualSensorOptions;
}

const [COUNT, DELETE, REPORT, COUNT_RESPONSE, RESPONSE] = [
  opCodeNumber('count'),
  opCodeNumber('delete'),
  opCodeNumber('report'),
  opCodeNumber('countResponse'),
  opCodeNumber('response'),
];

export const RULE_BREAKERS: readonly RuleBreaker[] = [
  // Advertising and services
  { name: 'nameless', does: 'advertises no name', options: { name: '' } },
  {
    name: 'gone-after-link',
    does: 'advertises no more after the first link',
    options: { advertisesAgain: false },
  },
  { name: 'mute', does: 'takes a link and answers no request', options: { mute: true } },
  {
    name: 'empty-service',
    does: 'has the service without any characteristic',
    options: { deviations: { services: (all) => all.map(emptied) } },
  },
  { name: 'no-reading', does: 'lacks Reading', options: lacking(READING_UUID) },
  { name: 'no-capabilities', does: 'lacks Capabilities', options: lacking(CAPABILITIES_UUID) },
  {
    name: 'reading-not-readable',
    does: 'notifies Reading and lets nobody read it',
    options: changing(READING_UUID, (it) => ({ ...it, properties: ['notify'] })),
  },
  {
    name: 'no-battery',
    does: 'lacks the Battery Service',
    options: withoutService(BATTERY_SERVICE_UUID),
  },
  {
    name: 'no-device-information',
    does: 'lacks the Device Information Service',
    options: withoutService(DEVICE_INFORMATION_UUID),
  },
  // Reading
  { name: 'short-reading', does: 'sends 16 bytes', options: cutting(16) },
  { name: 'long-reading', does: 'sends 19 bytes', options: cutting(19) },
  {
    name: 'reserved-bits',
    does: 'sets a reserved bit of the flags',
    options: {
      deviations: {
        readingBytes: (right) => Uint8Array.of((right[0] ?? 0) | 0x80, ...right.subarray(1)),
      },
    },
  },
  {
    name: 'standing-sequence',
    does: 'numbers each measurement alike',
    options: { deviations: { reading: (right) => ({ ...right, sequence: 7 }) } },
  },
  {
    name: 'skipping-sequence',
    does: 'leaves every second number out',
    options: { deviations: { reading: (right) => ({ ...right, sequence: right.sequence * 2 }) } },
  },
  {
    name: 'backward-uptime',
    does: 'has a clock that runs backwards',
    options: {
      deviations: {
        reading: (right) => ({ ...right, uptimeMs: 2_000_000_000 - right.uptimeMs }),
      },
    },
  },
  {
    name: 'fast-uptime',
    does: 'has a clock that runs ten times too fast',
    options: { deviations: { reading: (right) => ({ ...right, uptimeMs: right.uptimeMs * 10 }) } },
  },
  {
    name: 'fault-with-pressure',
    does: 'reports a fault and a pressure at once',
    options: {
      deviations: {
        reading: (right) => ({ ...right, flags: { ...right.flags, fault: true }, pressurePa: 55 }),
      },
    },
  },
  {
    name: 'old-value-shown',
    does: 'shows its first measurement to whoever reads the latest',
    options: { deviations: { shown: (all) => all[0] } },
  },
  {
    name: 'twice-notified',
    does: 'notifies each measurement twice',
    options: { deviations: { notifications: 2 } },
  },
  {
    name: 'flood',
    does: 'notifies each measurement three hundred times',
    options: { deviations: { notifications: 300 } },
  },
  {
    name: 'never-notified',
    does: 'takes a subscription and sends nothing',
    options: { deviations: { notifications: 0 } },
  },
  {
    name: 'slow',
    does: 'measures at three times the interval that it claims',
    options: { deviations: { slowness: 3 } },
  },
  {
    name: 'boot-kept',
    does: 'keeps its boot id over a restart',
    options: { deviations: { keepsBoot: true } },
  },
  {
    name: 'boot-changed',
    does: 'has another boot id after every link',
    options: { deviations: { changesBootWithLink: true } },
  },
  // Capabilities
  {
    name: 'short-capabilities',
    does: 'sends 32 bytes of capabilities',
    options: { deviations: { capabilitiesBytes: (right) => right.subarray(0, 32) } },
  },
  {
    name: 'other-major-version',
    does: 'speaks major version 2',
    options: { capabilities: { majorVersion: 2 } },
  },
  {
    name: 'upside-down-range',
    does: 'has a range that ends below its beginning',
    options: { capabilities: { rangeLowPa: 3000, rangeHighPa: 1 } },
  },
  {
    name: 'zero-interval',
    does: 'claims an interval of 0 ms, and a shortest one of more',
    options: { capabilities: { intervalMs: 0 } },
  },
  // Control
  {
    name: 'takes-nonsense',
    does: 'takes anything that is written to Control',
    options: changing(CONTROL_UUID, (it) => ({ ...it, write: () => undefined })),
  },
  {
    name: 'other-refusal',
    does: 'refuses nonsense at Control with another error',
    options: changing(CONTROL_UUID, (it) => ({
      ...it,
      write: (value) => (it.write?.(value) === undefined ? undefined : ATT_ERROR.unlikely),
    })),
  },
  {
    name: 'interval-ignored',
    does: 'takes another interval and goes on as before',
    options: { deviations: { ignoresInterval: true } },
  },
  // Stored readings
  {
    name: 'half-a-store',
    does: 'has Stored readings and no control point',
    options: lacking(RECORD_ACCESS_UUID),
  },
  {
    name: 'no-store',
    does: 'claims a store and lacks both of its characteristics',
    options: lacking(RECORD_ACCESS_UUID, STORED_READINGS_UUID),
  },
  {
    name: 'shallow-store',
    does: 'keeps three readings and claims a thousand',
    options: { capabilities: { bufferDepth: 1000 }, deviations: { keeps: 3 } },
  },
  {
    name: 'report-backwards',
    does: 'reports the latest reading first',
    options: { deviations: { report: (right) => right.toReversed() } },
  },
  {
    name: 'report-twice',
    does: 'reports each reading twice',
    options: { deviations: { report: (right) => right.flatMap((it) => [it, it]) } },
  },
  {
    name: 'report-lacks-one',
    does: 'leaves the second reading of a report out',
    options: { deviations: { report: (right) => right.filter((_, place) => place !== 1) } },
  },
  {
    name: 'report-altered',
    does: 'reports other pressures than it notified',
    options: { deviations: { report: (right) => right.map(otherPressure) } },
  },
  {
    name: 'report-open-end',
    does: 'never says that a report is over',
    options: answering((right) => (isAnswerTo(right, REPORT) ? null : right)),
  },
  {
    name: 'report-wrong-outcome',
    does: 'says that there was nothing after a report that was sent',
    options: answering((right) =>
      isAnswerTo(right, REPORT) ? encodeResponse(REPORT, 'noRecords') : right,
    ),
  },
  {
    name: 'count-wrong',
    does: 'counts one reading too many',
    options: answering((right) =>
      right[0] === COUNT_RESPONSE ? encodeCount((right[2] ?? 0) + 1) : right,
    ),
  },
  {
    name: 'delete-taken',
    does: 'says that it has deleted what it was asked to',
    options: answering((right) =>
      isAnswerTo(right, DELETE) ? encodeResponse(DELETE, 'success') : right,
    ),
  },
  {
    name: 'any-operator',
    does: 'answers every wrong request with success',
    options: answering((right) =>
      isAnswerTo(right, COUNT) ? encodeResponse(COUNT, 'success') : right,
    ),
  },
  {
    name: 'abort-ignored',
    does: 'sends a report to its end, whoever aborts it',
    options: { deviations: { ignoresAbort: true } },
  },
  {
    name: 'asks-no-configuration',
    does: 'takes requests that it has no way to answer',
    options: mapping(ATT_ERROR.notConfigured),
  },
  {
    name: 'takes-two-reports',
    does: 'takes a second request while a report is under way',
    options: mapping(ATT_ERROR.underWay),
  },
];

/** @throws RangeError where there is none of that name */
export function ruleBreakerNamed(name: string): RuleBreaker {
  const found = RULE_BREAKERS.find((breaker) => breaker.name === name);
  if (found !== undefined) return found;
  throw new RangeError(`there is no rule breaker "${name}"`);
}

/** Longer than a reading is filled up with zeros. */
function cutting(length: number): VirtualSensorOptions {
  const cut = (right: Uint8Array) => Uint8Array.from({ length }, (_, place) => right[place] ?? 0);
  return { deviations: { readingBytes: cut } };
}

function answering(answer: (right: Uint8Array) => Uint8Array | null): VirtualSensorOptions {
  return { deviations: { answer } };
}

function mapping(error: number): VirtualSensorOptions {
  return { deviations: { accessError: (right) => (right === error ? undefined : right) } };
}

function isAnswerTo(answer: Uint8Array, opCode: number): boolean {
  return answer[0] === RESPONSE && answer[2] === opCode;
}

/** The lowest byte of the pressure has its place after flags, boot, sequence and uptime. */
function otherPressure(reading: Uint8Array): Uint8Array {
  const altered = Uint8Array.from(reading);
  altered[11] = (altered[11] ?? 0) ^ 1;
  return altered;
}
