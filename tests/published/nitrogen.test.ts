/** Nitrogen under pressure, against published figures. */
import { describe, expect, test } from 'vitest';
import { gaugeFromUnit, inGaugeUnit } from '../../protocol/gauge-pressure.ts';
import { STANDARD_ATMOSPHERE_PA, temperatureToC, kelvinFromCelsius } from '../../protocol/units.ts';
import { idealPa, nitrogenPa } from '../../web/analysis/nitrogen/nitrogen-gas.ts';

const kelvin = (fahrenheit: number) => kelvinFromCelsius(temperatureToC(fahrenheit, '°F'));

/** By how many psi a gauge's reading changes between two temperatures. */
function changePsi(law: typeof idealPa, psi: number, fromF: number, toF: number): number {
  const absolutePa = gaugeFromUnit(psi, 'psi').gaugePa + STANDARD_ATMOSPHERE_PA;
  return inGaugeUnit(law(absolutePa, kelvin(fromF), kelvin(toF)) - absolutePa, 'psi');
}

describe('the ideal gas', () => {
  // p₂ = p₁·T₂/T₁ with absolute values, computed to five digits.
  test.each([
    [70, 71, 0.97173],
    [70, 76, 5.83038],
    [70, 60, -9.71729],
    [90, 70, -18.72745],
  ])('500 psi (gauge) from %s to %s °F changes by %s psi', (fromF, toF, psi) => {
    expect(changePsi(idealPa, 500, fromF, toF)).toBeCloseTo(psi, 5);
  });

  // ASHRAE Journal, January 2021, page 40: at 500 psi about one psi for each °F, six for six.
  test('at 500 psi (gauge) a degree Fahrenheit is about a psi, six are about six', () => {
    for (const law of [idealPa, nitrogenPa]) {
      expect(Math.abs(changePsi(law, 500, 70, 71) - 1)).toBeLessThan(0.07);
      expect(Math.abs(changePsi(law, 500, 70, 76) - 6)).toBeLessThan(0.4);
    }
  });

  // UFGS-15182: 0.3 psi for each °F. That slope is the ideal gas's at 144 psi (gauge) and 70 °F.
  test('at 144 psi (gauge) and 70 °F a degree Fahrenheit is 0.3 psi', () => {
    expect(changePsi(idealPa, 144, 70, 71)).toBeCloseTo(0.3, 3);
  });
});

describe('nitrogen itself', () => {
  // CoolProp 8.0.0 (equation of state of Span and others, 2000) at constant density.
  test.each([
    [500, 70, 71, 1.054229],
    [500, 70, 76, 6.32459],
    [500, 70, 60, -10.545227],
    [500, 90, 70, -20.187136],
    [300, 70, 76, 3.750268],
    [150, 70, 76, 1.916526],
  ])('%s psi (gauge) from %s to %s °F changes by %s psi', (psi, fromF, toF, change) => {
    const found = changePsi(nitrogenPa, psi, fromF, toF);
    // To a fiftieth of the change, and nearer than the ideal gas by far.
    expect(Math.abs(found / change - 1)).toBeLessThan(0.02);
    const idealOff = Math.abs(changePsi(idealPa, psi, fromF, toF) - change);
    expect(Math.abs(found - change)).toBeLessThan(idealOff / 3);
  });
});
