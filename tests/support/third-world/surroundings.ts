/** Rooms with a cooler that switches, and the open air with sun and clouds. */
import { between, logBetween } from '../invented-curves.ts';
import type { Surroundings } from './rig.ts';

/** A saw-tooth with rounded corners: up while the cooler rests, down while it runs. */
export function room(random: () => number): Surroundings {
  const meanC = between(random, 18, 26);
  const periodS = between(random, 600, 1800);
  const swingK = between(random, 0.05, 0.3);
  const driftKPerS = between(random, -0.5, 0.5) / 3600;
  const phase = between(random, 0, 2 * Math.PI);
  const bodyK = between(random, 0, 6);
  const cycle = (atS: number) => {
    const angle = (2 * Math.PI * atS) / periodS + phase;
    return Math.sin(angle) + 0.25 * Math.sin(2 * angle) - 0.1 * Math.sin(3 * angle);
  };
  return {
    wallC: (atS) => meanC + driftKPerS * atS + 0.4 * swingK * cycle(atS - 300),
    gaugeC: (atS) => meanC + bodyK + driftKPerS * atS + swingK * cycle(atS - 60),
  };
}

export function openAir(random: () => number): Surroundings {
  const meanC = between(random, -5, 40);
  const driftKPerS = between(random, -3, 3) / 3600;
  const isSunny = random() < 0.4;
  const clouds = Array.from({ length: 4 }, () => ({
    periodS: logBetween(random, 200, 3000),
    swingK: isSunny ? between(random, 0.1, 1.2) : between(random, 0, 0.1),
    phase: between(random, 0, 2 * Math.PI),
  }));
  const sun = (atS: number) =>
    clouds.reduce(
      (sum, { periodS, swingK, phase }) =>
        sum + swingK * Math.sin((2 * Math.PI * atS) / periodS + phase),
      0,
    );
  return {
    // Copper in the sun follows late and less.
    wallC: (atS) => meanC + driftKPerS * atS + 0.6 * sun(atS - 120),
    gaugeC: (atS) => meanC + 1 + driftKPerS * atS + sun(atS - 30),
  };
}
