/** The two ways in which a sensor may speak: our profile, or Bluetooth's Environmental Sensing Service. */
import {
  PROFILE_VERSION,
  READING_UUID,
  STANDARD_PRESSURE_UUID,
  STANDARD_TEMPERATURE_UUID,
} from '../../../protocol/profile.ts';
import { DeadlineError, pause } from './deadline.ts';
import { hostUuid, type HostCharacteristic } from './host-library.ts';
import { RefusedError, type Link } from './link.ts';
import { monotonicMs } from './monotonic-clock.ts';
import { read, readCapabilities, readIfThere, subscribe } from './sensor-requests.ts';
import type { Characteristics } from './sensor-requests.ts';
import { NotUnderstoodError } from './session-end.ts';
import { StandardReadings } from './standard-readings.ts';

export interface Speech {
  /** What there is to say about it while readings come. */
  readonly problem: 'sensor_not_understood' | 'standard_sensor' | 'simulated_sensor' | null;
  /** A computer plays it. */
  readonly simulated: boolean;
  readonly intervalMs: number;
  /** How many past readings can be asked for. */
  readonly bufferDepth: number;
  /** Resolves once readings come. */
  listen(take: (bytes: Uint8Array) => void): Promise<Listening>;
}

interface Listening {
  /** What has to go on meanwhile; ends only by throwing. */
  readonly goOn: () => Promise<never>;
  readonly stop: () => void;
}

/** @throws NotUnderstoodError where it has no readings of either kind */
export async function speechOf(link: Link, found: Characteristics): Promise<Speech> {
  const reading = found.get(hostUuid(READING_UUID));
  const pressure = found.get(hostUuid(STANDARD_PRESSURE_UUID));
  if (reading !== undefined || pressure === undefined) {
    const { understood, majorVersion, ...capabilities } = await readCapabilities(link, found);
    if (majorVersion !== null && majorVersion !== PROFILE_VERSION.major) {
      throw new NotUnderstoodError(`it speaks version ${majorVersion} of the profile`);
    }
    return {
      ...capabilities,
      problem: remarkOn(understood, capabilities.simulated),
      listen: async (take) => {
        if (reading === undefined) throw new NotUnderstoodError('it has no readings');
        const stop = hear(reading, take);
        await subscribe(link, reading).catch(stopAnd(stop));
        return { goOn: () => untilAborted(link), stop };
      },
    };
  }
  return {
    problem: 'standard_sensor',
    intervalMs: POLL_MS,
    bufferDepth: 0,
    simulated: false,
    listen: (take) => listenToStandard(link, found, pressure, take),
  };
}

function remarkOn(understood: boolean, simulated: boolean): Speech['problem'] {
  if (!understood) return 'sensor_not_understood';
  return simulated ? 'simulated_sensor' : null;
}

/** A sensor that can't notify is asked as often, ms; and each for its temperature so often. */
const POLL_MS = 1000;
const TEMPERATURE_MS = 10_000;

async function listenToStandard(
  link: Link,
  found: Characteristics,
  pressure: HostCharacteristic,
  take: (bytes: Uint8Array) => void,
): Promise<Listening> {
  const readings = new StandardReadings();
  let heardMs = 0;
  const takePressure = (bytes: Uint8Array): void => {
    heardMs = monotonicMs();
    take(readings.reading(bytes));
  };
  /** Also of one that notifies: it need not do so before its value changes. */
  const askPressure = async (): Promise<void> => {
    if (monotonicMs() - heardMs >= POLL_MS) takePressure(await read(link, pressure));
  };
  const askTemperature = async (): Promise<void> => {
    readings.temperature(await readIfThere(link, found, STANDARD_TEMPERATURE_UUID));
  };
  await askTemperature();
  const repeated = async (everyMs: number, action: () => Promise<void>): Promise<never> => {
    for (;;) {
      await pause(everyMs, link.signal);
      // What isn't answered in time is asked again; silence is watched for.
      await action().catch((error: unknown) => {
        const isSurvived = error instanceof DeadlineError || error instanceof RefusedError;
        if (!isSurvived) throw error;
      });
    }
  };
  const goOn = (): Promise<never> =>
    Promise.race([repeated(POLL_MS, askPressure), repeated(TEMPERATURE_MS, askTemperature)]);
  const stop = hear(pressure, takePressure);
  // One that can't notify is asked alone.
  await subscribe(link, pressure).catch((error: unknown) => {
    if (!(error instanceof RefusedError)) stopAnd(stop)(error);
  });
  return { goOn, stop };
}

/** Its notifications; what was asked for comes to whoever asked. */
function hear(characteristic: HostCharacteristic, take: (bytes: Uint8Array) => void): () => void {
  const onData = (bytes: unknown, isNotification: unknown): void => {
    if (isNotification === true && bytes instanceof Uint8Array) take(bytes);
  };
  characteristic.on('data', onData);
  return () => characteristic.removeListener('data', onData);
}

/** What failed leaves nothing behind in the library. */
function stopAnd(stop: () => void): (error: unknown) => never {
  return (error) => {
    stop();
    throw error;
  };
}

async function untilAborted({ signal }: Link): Promise<never> {
  for (;;) await pause(2 ** 30, signal);
}
