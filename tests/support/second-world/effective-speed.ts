/** What the pump still draws from the system through the hose, and how long gas alone takes by that. */
import { conductanceM3PerS, type Duct } from './duct.ts';
import type { PumpSetup } from './pump.ts';

/** Speed at the system for a pressure there, m³/s. */
export function effectiveSpeedM3PerS(hose: Duct, pump: PumpSetup, systemPa: number): number {
  let pumpPa = systemPa / 2;
  let speed = 0;
  // The hose conducts by the mean of both ends' pressures: a few rounds settle it.
  for (let round = 0; round < 12; round += 1) {
    const hoseM3PerS = conductanceM3PerS(hose, (systemPa + pumpPa) / 2, 0, 20);
    const pumpM3PerS = (pump.speedM3PerS * pumpPa) / (pumpPa + pump.kneePa);
    speed = 1 / (1 / hoseM3PerS + 1 / pumpM3PerS);
    pumpPa = (pumpPa + systemPa * (1 - speed / hoseM3PerS)) / 2;
  }
  return speed;
}

/** From atmosphere to a pressure, without any other gas, s. */
export function gasOnlyS(hose: Duct, pump: PumpSetup, volumeM3: number, toPa: number): number {
  const pieces = 24;
  const step = Math.log(100_000 / toPa) / pieces;
  let tookS = 0;
  for (let i = 0; i < pieces; i += 1) {
    const pressurePa = toPa * Math.exp((i + 0.5) * step);
    tookS += (volumeM3 * step) / effectiveSpeedM3PerS(hose, pump, pressurePa);
  }
  return tookS;
}
