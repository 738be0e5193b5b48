/** Sections 2 and 3: how it advertises, and which services and characteristics it has. */
import {
  BATTERY_LEVEL_UUID,
  BATTERY_SERVICE_UUID,
  CAPABILITIES_UUID,
  CONTROL_UUID,
  DEVICE_INFORMATION,
  DEVICE_INFORMATION_UUID,
  READING_UUID,
  RECORD_ACCESS_UUID,
  SERVICE_UUID,
  STORED_READINGS_UUID,
} from '../../../protocol/profile.ts';
import { hex } from './bytes.ts';
import { expect, NotTriedError } from './check-errors.ts';
import type { Check } from './check.ts';
import type { Visit } from './visit.ts';

const ACCESS = [STORED_READINGS_UUID, RECORD_ACCESS_UUID];

export const SERVICE_CHECKS: readonly Check[] = [
  {
    id: 'advertised-service',
    section: '2',
    level: 'must',
    what: 'It advertises the service in its list of 128-bit service UUIDs.',
    attempt: ({ found }) => {
      expect(found.advertisesService, SERVICE_UUID, 'no such UUID in what it advertises');
      return undefined;
    },
  },
  {
    id: 'connectable',
    section: '2',
    level: 'must',
    what: 'It advertises as connectable, and takes a connection.',
    attempt: async (visit) => {
      expect(visit.found.connectable, 'a connectable advertisement', 'one that is not');
      await visit.link();
      return undefined;
    },
  },
  {
    id: 'local-name',
    section: '2',
    level: 'should',
    what: 'It says its local name when it is searched for.',
    attempt: ({ found }) => {
      expect(found.name !== null, 'a name', 'none');
      return undefined;
    },
  },
  {
    id: 'service',
    section: '3',
    level: 'must',
    what: 'It has the vacuum sensor service.',
    attempt: async (visit) => {
      await visit.link();
      expect(visit.peer.hasService(SERVICE_UUID), SERVICE_UUID, 'no such service');
      return undefined;
    },
  },
  characteristic('reading', 'Reading', READING_UUID, ['read', 'notify']),
  characteristic('capabilities', 'Capabilities', CAPABILITIES_UUID, ['read']),
  {
    id: 'control',
    section: '3',
    level: 'must',
    what: 'Control, where it has one, can be written to.',
    attempt: async (visit) => {
      await visit.link();
      const properties = visit.peer.propertiesOf(CONTROL_UUID);
      if (properties === null) throw new NotTriedError('it has no Control, and needs none');
      expectProperties(properties, ['write']);
      return undefined;
    },
  },
  {
    id: 'store-offered',
    section: '3',
    level: 'should',
    what: 'It keeps readings and offers them.',
    attempt: async (visit) => {
      await needReading(visit);
      const has = ACCESS.some((uuid) => visit.peer.propertiesOf(uuid) !== null);
      expect(has, 'Stored readings and Record Access Control Point', 'neither');
      return undefined;
    },
  },
  {
    id: 'store-whole',
    section: '3',
    level: 'must',
    what: 'Of Stored readings and Record Access Control Point it has both, with their properties, or neither.',
    attempt: async (visit) => {
      await needReading(visit);
      const [stored, point] = ACCESS.map((uuid) => visit.peer.propertiesOf(uuid));
      if (stored == null && point == null) return 'it has neither';
      expect(stored != null, 'both', 'the control point alone');
      expect(point != null, 'both', 'Stored readings alone');
      expectProperties(stored ?? [], ['notify']);
      expectProperties(point ?? [], ['write', 'indicate']);
      return undefined;
    },
  },
  {
    id: 'battery',
    section: '3',
    level: 'should',
    what: 'It says how full its battery is, 0 to 100.',
    attempt: async (visit) => {
      await visit.link();
      const has = visit.peer.hasService(BATTERY_SERVICE_UUID);
      expect(has, `the Battery Service (${BATTERY_SERVICE_UUID})`, 'no such service');
      const there = visit.peer.propertiesOf(BATTERY_LEVEL_UUID) !== null;
      expect(there, `Battery Level (${BATTERY_LEVEL_UUID})`, 'no such characteristic');
      const bytes = await visit.peer.read(BATTERY_LEVEL_UUID);
      const [percent = 255] = bytes;
      expect(bytes.length === 1 && percent <= 100, 'one byte, 0 to 100', hex(bytes));
      return `${percent} %`;
    },
  },
  {
    id: 'device-information',
    section: '3',
    level: 'should',
    what: 'It says its maker, model, serial number and firmware.',
    attempt: async (visit) => {
      await visit.link();
      const has = visit.peer.hasService(DEVICE_INFORMATION_UUID);
      expect(has, `the Device Information Service (${DEVICE_INFORMATION_UUID})`, 'no such service');
      const said: string[] = [];
      for (const [name, uuid] of Object.entries(DEVICE_INFORMATION)) {
        expect(
          visit.peer.propertiesOf(uuid) !== null,
          `${name} (${uuid})`,
          'no such characteristic',
        );
        said.push(new TextDecoder().decode(await visit.peer.read(uuid)));
      }
      return said.join(', ');
    },
  },
];

function characteristic(id: string, name: string, uuid: string, wanted: readonly string[]): Check {
  return {
    id,
    section: '3',
    level: 'must',
    what: `It has ${name}, to ${wanted.join(' and ')}.`,
    attempt: async (visit) => {
      await visit.link();
      const properties = visit.peer.propertiesOf(uuid);
      expect(properties !== null, uuid, 'no such characteristic');
      expectProperties(properties ?? [], wanted);
      return undefined;
    },
  };
}

function expectProperties(has: readonly string[], wanted: readonly string[]): void {
  const all = wanted.every((property) => has.includes(property));
  expect(all, `the properties ${wanted.join(', ')}`, has.join(', ') || 'none');
}

/** Without the profile's own characteristics there is nothing to be said about the rest of the service. */
async function needReading(visit: Visit): Promise<void> {
  await visit.need(READING_UUID, 'Reading');
}
