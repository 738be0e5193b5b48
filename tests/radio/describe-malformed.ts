/** Peers that keep to no rule, on every level that a peer can reach. */
import { expect, it } from 'vitest';
import { ATT, ATT_ERROR, errorResponse } from '../../simulators/sensor/att-server.ts';
import { seeded } from '../support/invented-curves.ts';
import { count, describeDay, hex } from './radio-day.ts';

/** Unsolicited packets, and answers to requests, that are made up. */
const PACKETS = 3000;
const ANSWERS = 60;

export function describeMalformed(library: string): void {
  describeDay('peers that keep to no rule', library, (day) => {
    it(`hears a sound sensor while another sends ${PACKETS} packets by chance`, async () => {
      const { ear } = day.rig;
      const random = seeded(11);
      const sound = day.place({ name: 'Sound' });
      const wild = day.place({ name: 'Wild' });
      await Promise.all([sound.whenSubscribed(), wild.whenSubscribed()]);
      const playing = sound.play(count(300), 10);
      for (let sent = 0; sent < PACKETS; sent += 1) {
        if (!wild.peripheral.connected) await wild.whenSubscribed();
        wild.peripheral.sendAnything(anyPdu(random));
        if (sent % 20 === 0) await new Promise((done) => setTimeout(done, 10));
      }
      const sent = await playing;
      // What was both heard and fetched counts once: the bridge takes it once.
      const ofSound = () =>
        new Set(hex(ear.readings.filter(({ sensorId }) => sensorId === sound.id)));
      await ear.until('every sound reading', () => ofSound().size >= sent.length);
      expect([...ofSound()].sort()).toEqual(hex(sent).sort());
      // One peer's nonsense must not cost the other its connection.
      expect(sent.every(({ delivered }) => delivered)).toBe(true);
      expect(ear.states.some(({ problem }) => problem === 'radio_restarted')).toBe(false);
    });

    it(`connects with a sensor after ${ANSWERS} of its answers were made up`, async () => {
      const { ear } = day.rig;
      const random = seeded(5);
      const sensor = day.place();
      let answers = 0;
      sensor.peripheral.intercept = (request) => {
        if (request[0] === ATT.confirmation || random() < 0.4) return undefined;
        answers += 1;
        return madeUpAnswer(request, random);
      };
      await ear.until('made-up answers', () => answers >= ANSWERS, 60_000);
      sensor.peripheral.intercept = null;
      const again = sensor.nextSubscription();
      sensor.controller.loseLinks();
      await again;
      const last = sensor.measure(77);
      await ear.until('a reading', () => hex(ear.readings).includes(hex([last])[0] ?? ''));
    });

    it('survives a flood of notifications without losing one of another sensor', async () => {
      const { ear } = day.rig;
      const calm = day.place({ name: 'Calm' });
      const flood = day.place({ name: 'Flood' });
      await Promise.all([calm.whenSubscribed(), flood.whenSubscribed()]);
      const playing = calm.play(count(100), 10);
      for (let sent = 0; sent < 5000; sent += 1) {
        flood.measure(sent % 900);
        if (sent % 50 === 0) await flood.drained();
      }
      const sent = await playing;
      const ofCalm = () => ear.readings.filter(({ sensorId }) => sensorId === calm.id);
      await ear.until('every calm reading', () => ofCalm().length >= sent.length);
      expect(hex(ofCalm()).sort()).toEqual(hex(sent).sort());
      const ofFlood = () => ear.readings.filter(({ sensorId }) => sensorId === flood.id).length;
      await ear.until('the flood', () => ofFlood() >= 5000);
    });

    it('goes on after an adapter has sent a packet that is cut off', async () => {
      const { ear, served } = day.rig;
      const sensor = day.place();
      await sensor.whenSubscribed();
      sensor.measure(3);
      await day.readings(1);
      // An LE meta event of an advertising report that says it holds more than it does.
      const heardAgain = sensor.nextSubscription();
      served.corrupt(Buffer.from([0x04, 0x3e, 0x03, 0x02, 0x05, 0x00]));
      // A library may take no notice, and then the link stands: end it, and all begins anew.
      setTimeout(() => sensor.controller.loseLinks(), 500);
      await heardAgain;
      const last = sensor.measure(4);
      await ear.until('a reading', () => hex(ear.readings).includes(hex([last])[0] ?? ''));
    });
  });
}

/** Of any operation and length; often one of those that a central takes without having asked. */
function anyPdu(random: () => number): Buffer {
  const length = Math.floor(random() * 24);
  const bytes = Buffer.from(Array.from({ length }, () => Math.floor(random() * 256)));
  const usual = [ATT.notification, ATT.notification + 2, ATT.error, ATT.read + 1, ATT.mtuRequest];
  const opcode = usual[Math.floor(random() * 8)];
  return opcode === undefined ? bytes : Buffer.concat([Buffer.from([opcode]), bytes]);
}

function madeUpAnswer(request: Buffer, random: () => number): Buffer | null {
  const opcode = request[0] ?? 0;
  const kind = random();
  if (kind < 0.1) return null;
  if (kind < 0.3) return errorResponse(opcode, 0, ATT_ERROR.unlikely);
  const length = Math.floor(random() * 22);
  const bytes = Buffer.from(Array.from({ length }, () => Math.floor(random() * 256)));
  return kind < 0.7 ? Buffer.concat([Buffer.from([opcode + 1]), bytes]) : bytes;
}
