/** What is asked of a connected sensor, one request at a time, each with its deadline. */
import {
  BATTERY_LEVEL_UUID,
  BATTERY_SERVICE_UUID,
  CAPABILITIES_FIELDS,
  CAPABILITIES_UUID,
  DEVICE_INFORMATION,
  DEVICE_INFORMATION_UUID,
  ENVIRONMENTAL_SENSING_UUID,
  PROFILE_VERSION,
  SERVICE_UUID,
} from '../../../protocol/profile.ts';
import { decode } from '../../../protocol/profile-codec.ts';
import { SIMULATED_ENDING, type SensorIdentity } from '../../../protocol/recording.ts';
import { eventWithin } from './deadline.ts';
import { hostUuid, isHostCharacteristic, isHostService } from './host-library.ts';
import type { HostCharacteristic } from './host-library.ts';
import { ask, RefusedError, throwIfRefused, type Link } from './link.ts';

/** A sensor's characteristics by UUID; void with the connection in which they were found. */
export type Characteristics = ReadonlyMap<string, HostCharacteristic>;

export interface Capabilities {
  /** False where what the sensor says of itself doesn't follow the profile. */
  readonly understood: boolean;
  /** Of the profile that it speaks; null where it doesn't say. */
  readonly majorVersion: number | null;
  /** A computer plays it. */
  readonly simulated: boolean;
  readonly intervalMs: number;
  /** How many past readings can be asked for. */
  readonly bufferDepth: number;
}

/** Assumed of a sensor that doesn't say how often it measures: the slowest that makes sense. */
const ASSUMED_INTERVAL_MS = 1000;

const SERVICES = [
  SERVICE_UUID,
  ENVIRONMENTAL_SENSING_UUID,
  BATTERY_SERVICE_UUID,
  DEVICE_INFORMATION_UUID,
].map(hostUuid);

export async function discoverCharacteristics(link: Link): Promise<Characteristics> {
  const { peripheral } = link;
  const found = new Map<string, HostCharacteristic>();
  const services = await ask(link, {
    what: 'services',
    emitter: peripheral,
    event: 'servicesDiscover',
    begin: () => peripheral.discoverServices(SERVICES),
    take: (list, error) => listOf(list, error).filter(isHostService),
  });
  for (const service of services) {
    const characteristics = await ask(link, {
      what: `characteristics of ${service.uuid}`,
      emitter: service,
      event: 'characteristicsDiscover',
      begin: () => service.discoverCharacteristics([]),
      take: (list, error) => listOf(list, error).filter(isHostCharacteristic),
    });
    for (const characteristic of characteristics) found.set(characteristic.uuid, characteristic);
  }
  return found;
}

/**
 * Asks for notifications. Where a sensor refuses them, the libraries don't always say so; but it
 * answers one request after the other (Core Specification, Vol 3, Part F, section 3.3.2), so one
 * that answers the next request has answered this one too, with a no.
 * @throws RefusedError where it answers and doesn't let itself be subscribed to
 * @throws DeadlineError where it answers nothing
 */
export async function subscribe(link: Link, characteristic: HostCharacteristic): Promise<void> {
  try {
    await ask(link, {
      what: 'subscription',
      emitter: characteristic,
      event: 'notify',
      begin: () => characteristic.subscribe(),
      take: (state, error) => {
        throwIfRefused(error);
        if (state !== true) throw new RefusedError('the subscription has no effect');
        return state;
      },
    });
  } catch (error) {
    await readOrRefusal(link, characteristic);
    throw new RefusedError('the subscription was refused', { cause: error });
  }
}

export async function readCapabilities(link: Link, found: Characteristics): Promise<Capabilities> {
  const bytes = await readIfThere(link, found, CAPABILITIES_UUID);
  const decoded = bytes && decode(CAPABILITIES_FIELDS, bytes);
  if (decoded?.ok !== true) {
    return {
      understood: false,
      majorVersion: null,
      simulated: false,
      intervalMs: ASSUMED_INTERVAL_MS,
      bufferDepth: 0,
    };
  }
  const { majorVersion, intervalMs, bufferDepth, principle } = decoded.values;
  const understood = majorVersion === PROFILE_VERSION.major;
  const simulated = principle === 'simulated';
  return { understood, majorVersion, simulated, intervalMs, bufferDepth };
}

/** @param simulated it goes into the name, which the report keeps whatever anybody calls the sensor */
export async function readIdentity(
  link: Link,
  found: Characteristics,
  simulated: boolean,
): Promise<SensorIdentity> {
  const { id, advertisement } = link.peripheral;
  const text = async (uuid: string): Promise<string | null> => {
    const bytes = await readIfThere(link, found, uuid);
    return bytes && plainText(bytes);
  };
  const model = await text(DEVICE_INFORMATION.model);
  const name = plainText(Buffer.from(advertisement.localName ?? '')) ?? model ?? nameFromId(id);
  return {
    id,
    name: simulated ? `${name.slice(0, 80)}${SIMULATED_ENDING}` : name,
    manufacturer: await text(DEVICE_INFORMATION.manufacturer),
    model,
    serial: await text(DEVICE_INFORMATION.serial),
    firmware: await text(DEVICE_INFORMATION.firmware),
  };
}

/** The charge in per cent, or null where the sensor doesn't say. */
export async function readBattery(link: Link, found: Characteristics): Promise<number | null> {
  const percent = (await readIfThere(link, found, BATTERY_LEVEL_UUID))?.[0];
  return percent !== undefined && percent <= 100 ? percent : null;
}

/** The strength of the signal in dBm. */
export function readSignal({ peripheral, limitMs, signal }: Link): Promise<number> {
  return eventWithin({
    what: 'signal strength',
    emitter: peripheral,
    event: 'rssiUpdate',
    limitMs,
    signal,
    begin: () => peripheral.updateRssi(),
    take: (dbm) => (typeof dbm === 'number' ? dbm : undefined),
  });
}

export function nameFromId(id: string): string {
  return `Sensor ${id.slice(-4).toUpperCase()}`;
}

/** The bytes of a characteristic, or null where the sensor lacks it or refuses to show it. */
export async function readIfThere(
  link: Link,
  found: Characteristics,
  uuid: string,
): Promise<Uint8Array | null> {
  const characteristic = found.get(hostUuid(uuid));
  if (characteristic === undefined) return null;
  return await readOrRefusal(link, characteristic);
}

/** The bytes of a characteristic, or null where the sensor refuses to show it. */
async function readOrRefusal(
  link: Link,
  characteristic: HostCharacteristic,
): Promise<Uint8Array | null> {
  try {
    return await read(link, characteristic);
  } catch (error) {
    if (error instanceof RefusedError) return null;
    throw error;
  }
}

export function read(link: Link, characteristic: HostCharacteristic): Promise<Uint8Array> {
  return ask(link, {
    what: `value of ${characteristic.uuid}`,
    emitter: characteristic,
    event: 'data',
    begin: () => characteristic.read(),
    take: (bytes, isNotification, error) => {
      if (isNotification === true) return undefined;
      throwIfRefused(error);
      // On Linux both libraries turn a refusal into an empty value; none of the profile's values is empty.
      if (!(bytes instanceof Uint8Array) || bytes.length === 0) {
        throw new RefusedError(`${characteristic.uuid} was not shown`);
      }
      return bytes;
    },
  });
}

function listOf(list: unknown, error: unknown): unknown[] {
  throwIfRefused(error);
  return Array.isArray(list) ? list : [];
}

/** Readable characters only, at most 100 of them; null where nothing is left. */
function plainText(bytes: Uint8Array): string | null {
  const text = Buffer.from(bytes).toString('utf8').replace(/\p{C}/gu, '').trim().slice(0, 100);
  return text === '' ? null : text;
}
