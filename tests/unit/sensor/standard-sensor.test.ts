/** A sensor of Bluetooth's own Environmental Sensing Service, over the virtual air. */
import { afterEach, beforeEach, expect, test } from 'vitest';
import {
  BATTERY_LEVEL_UUID,
  READING_UUID,
  STANDARD_PRESSURE_UUID,
  STANDARD_TEMPERATURE_UUID,
} from '../../../protocol/profile.ts';
import { ATT } from '../../../simulators/sensor/att-server.ts';
import { uint16 } from '../../../simulators/sensor/hci.ts';
import { StandardSensor } from '../../../simulators/sensor/standard-sensor.ts';
import { VirtualAir } from '../../../simulators/sensor/virtual-air.ts';
import { AttCentral } from '../../support/att-central.ts';

let air: VirtualAir;
let central: AttCentral;
beforeEach(() => {
  air = new VirtualAir();
  central = new AttCentral(air);
});
afterEach(() => air.close());

test('shows and sends pressure and temperature in the units of that service', async () => {
  const sensor = new StandardSensor(air);
  await central.connect(sensor.controller.address);
  const pressure = (await central.find(STANDARD_PRESSURE_UUID)) ?? 0;
  const temperature = (await central.find(STANDARD_TEMPERATURE_UUID)) ?? 0;
  const listening = sensor.whenSubscribed();
  await central.configure(pressure, 1);
  await central.configure(temperature, 1);
  await listening;
  expect(sensor.measure(66.7, -10).delivered).toBe(true);
  await central.until(() => central.pushed.length === 2);
  // GATT Specification Supplement: Pressure in 0.1 Pa, Temperature in 0.01 °C; 667 and -1000.
  expect([...(central.from(pressure)[0] ?? [])]).toEqual([0x9b, 0x02, 0, 0]);
  expect([...(central.from(temperature)[0] ?? [])]).toEqual([0x18, 0xfc]);
  const shown = await central.request(ATT.read, uint16(pressure));
  expect([...shown.subarray(1)]).toEqual([0x9b, 0x02, 0, 0]);
  expect(await central.find(BATTERY_LEVEL_UUID)).toBeGreaterThan(0);
  expect(await central.find(READING_UUID)).toBeUndefined();
});

test('may lack temperature and notifications', async () => {
  const sensor = new StandardSensor(air, { hasTemperature: false, notifies: false });
  await central.connect(sensor.controller.address);
  const pressure = (await central.find(STANDARD_PRESSURE_UUID)) ?? 0;
  expect(await central.find(STANDARD_TEMPERATURE_UUID)).toBeUndefined();
  // What follows is no configuration, so it can't be written to.
  expect(await central.configure(pressure, 1)).toBeGreaterThan(0);
  expect(sensor.measure(5).delivered).toBe(false);
  const shown = await central.request(ATT.read, uint16(pressure));
  expect([...shown.subarray(1)]).toEqual([50, 0, 0, 0]);
});
