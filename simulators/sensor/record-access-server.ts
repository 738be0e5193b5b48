/**
 * The sensor's side of the Record Access Control Point, as section 7 of the profile's document has it:
 * takes requests, sends stored readings as fast as the host has room for them, and answers.
 */
import { RECORD_ACCESS_UUID, STORED_READINGS_UUID } from '../../protocol/profile.ts';
import {
  decodeRequest,
  encodeCount,
  encodeResponse,
  opCodeNumber,
  type AccessRequest,
  type Selection,
} from '../../protocol/record-access.ts';
import { ATT_ERROR } from './att-server.ts';
import type { Deviations } from './deviations.ts';
import type { CharacteristicDefinition, PeripheralHost } from './service-definition.ts';

export interface RecordAccessOptions {
  readonly select: (selection: Selection) => Uint8Array[];
  /** Undefined as long as nobody can ask. */
  readonly host: () => PeripheralHost | undefined;
  /** Between two stored readings, beside what the host's room makes of it. */
  readonly pauseMs: number;
  /** Whether an aborted report says that it was not completed, as it may. */
  readonly tellsOfAbortedReport: boolean;
  readonly deviations: Deviations;
}

/** A report under way. Its readings are settled when it is taken. */
interface Report {
  readonly readings: readonly Uint8Array[];
  sent: number;
}

const REPORT = opCodeNumber('report');
const ABORT = opCodeNumber('abort');

export class RecordAccessServer {
  readonly characteristics: readonly CharacteristicDefinition[] = [
    {
      uuid: STORED_READINGS_UUID,
      properties: ['notify'],
      subscription: (on) => this.#subscribeStored(on),
    },
    {
      uuid: RECORD_ACCESS_UUID,
      properties: ['write', 'indicate'],
      write: (value) => this.#write(value),
      subscription: (on) => this.#subscribeAnswers(on),
    },
  ];

  readonly #options: RecordAccessOptions;
  #answersWanted = false;
  #storedWanted = false;
  #report: Report | null = null;

  constructor(options: RecordAccessOptions) {
    this.#options = options;
  }

  #subscribeStored(on: boolean): void {
    this.#storedWanted = on;
    if (!on && this.#report !== null) this.#end('notCompleted');
  }

  /** Without anybody to answer to, as after the end of a link, a report ends too. */
  #subscribeAnswers(on: boolean): void {
    this.#answersWanted = on;
    if (!on) this.#report = null;
  }

  #write(value: Uint8Array): number | undefined {
    const { deviations } = this.#options;
    const right = this.#errorOf(value[0] ?? 0);
    const error = deviations.accessError === undefined ? right : deviations.accessError(right);
    if (error !== undefined) return error;
    const decoded = decodeRequest(value);
    // The write is answered first.
    queueMicrotask(() => {
      if (decoded.ok) this.#follow(decoded.request);
      else this.#indicate(encodeResponse(decoded.opCode, decoded.outcome));
    });
    return undefined;
  }

  #errorOf(opCode: number): number | undefined {
    if (!this.#answersWanted) return ATT_ERROR.notConfigured;
    if (opCode === REPORT && !this.#storedWanted) return ATT_ERROR.notConfigured;
    if (opCode !== ABORT && this.#report !== null) return ATT_ERROR.underWay;
    return undefined;
  }

  #follow(request: AccessRequest): void {
    if (request.opCode === 'abort') {
      this.#abort();
      return;
    }
    const readings = this.#options.select(request.selection);
    if (request.opCode === 'count') this.#indicate(encodeCount(readings.length));
    else if (readings.length === 0) this.#end('noRecords');
    else {
      const { report } = this.#options.deviations;
      this.#send((this.#report = { readings: report?.(readings) ?? readings, sent: 0 }));
    }
  }

  #abort(): void {
    if (this.#options.deviations.ignoresAbort === true) return;
    const wasUnderWay = this.#report !== null;
    this.#report = null;
    if (wasUnderWay && this.#options.tellsOfAbortedReport) this.#end('notCompleted');
    this.#indicate(encodeResponse(ABORT, wasUnderWay ? 'success' : 'abortUnsuccessful'));
  }

  /** Sends the next one and comes back when there is room again: what is measured now goes first. */
  #send(report: Report): void {
    if (this.#report !== report) return;
    const reading = report.readings[report.sent];
    if (reading === undefined) {
      this.#end('success');
      return;
    }
    const host = this.#options.host();
    if (host?.notify(STORED_READINGS_UUID, reading) !== true) {
      this.#end('notCompleted');
      return;
    }
    report.sent += 1;
    const { pauseMs } = this.#options;
    const goOn = (): void => host.whenRoom(() => this.#send(report));
    if (pauseMs > 0) setTimeout(goOn, pauseMs);
    else goOn();
  }

  #end(outcome: 'success' | 'noRecords' | 'notCompleted'): void {
    this.#report = null;
    this.#indicate(encodeResponse(REPORT, outcome));
  }

  #indicate(answer: Uint8Array): void {
    const { deviations, host } = this.#options;
    const given = deviations.answer === undefined ? answer : deviations.answer(answer);
    if (given !== null) host()?.indicate(RECORD_ACCESS_UUID, given);
  }
}
