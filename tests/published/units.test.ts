/** Unit factors against NIST Special Publication 811 (2008), Appendix B.8, as printed there. */
import { expect, test } from 'vitest';
import {
  PA_PER_MICRON,
  PA_PER_UNIT,
  PRESSURE_UNITS,
  pressureFromPa,
  pressureToPa,
  temperatureFromC,
  temperatureToC,
} from '../../protocol/units.ts';

test.each([
  ['torr', PA_PER_UNIT.Torr, 1.333224e2],
  ['conventional millimetre of mercury', PA_PER_MICRON * 1000, 1.333224e2],
  ['conventional inch of mercury', PA_PER_UNIT.inHg, 3.386389e3],
  ['millibar', PA_PER_UNIT.mbar, 1e2],
])('%s', (_name, got, printed) => {
  expect(got.toExponential(6)).toBe(printed.toExponential(6));
});

test('the micron from its definition: 1e-6 m · 13 595.1 kg/m³ · 9.80665 m/s²', () => {
  expect(PA_PER_MICRON).toBeCloseTo(0.133322387415, 12);
});

test('torr and conventional millimetre of mercury are told apart (0.14 ppm)', () => {
  expect(PA_PER_UNIT.Torr).toBeCloseTo(101_325 / 760, 12);
  expect((PA_PER_MICRON * 1000) / PA_PER_UNIT.Torr - 1).toBeCloseTo(1.4247e-7, 11);
});

test.each(PRESSURE_UNITS)('%s there and back', (unit) => {
  expect(pressureFromPa(pressureToPa(123.4, unit), unit)).toBeCloseTo(123.4, 10);
});

test('temperature scales (NIST SP 811, B.9): 32 °F is 0 °C, 212 °F is 100 °C', () => {
  expect(temperatureFromC(0, '°F')).toBe(32);
  expect(temperatureFromC(100, '°F')).toBe(212);
  expect(temperatureToC(-40, '°F')).toBe(-40);
});
