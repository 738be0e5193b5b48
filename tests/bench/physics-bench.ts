/** What an hour of a rehearsal's physics costs, against plain arithmetic on the same machine. */
import { advance } from '../../simulators/physics/advance.ts';
import { controlsAsFound } from '../../simulators/physics/controls.ts';
import { createRig } from '../../simulators/physics/rig-state.ts';
import { ALL_SCENARIOS } from '../../simulators/scenarios/all-scenarios.ts';

const HOUR_S = 3600;
const DIVISIONS = 10_000_000;

export function benchPhysics(): { name: string; ratio: number; detail: string }[] {
  hourOfEach();
  const hourMs = hourOfEach();
  const arithmeticMs = timeMs(divide);
  return [
    {
      name: 'an hour of a rehearsal, second by second / ten million divisions',
      ratio: hourMs / arithmeticMs,
      detail: `${hourMs.toFixed(0)} and ${arithmeticMs.toFixed(0)} ms`,
    },
  ];
}

/** Mean over all scenarios. */
function hourOfEach(): number {
  const tookMs = timeMs(() => {
    for (const { rig } of ALL_SCENARIOS) {
      const controls = { ...controlsAsFound(rig), pumpOn: true };
      let state = createRig(rig);
      while (state.elapsedS < HOUR_S) state = advance(state, 1, controls);
    }
  });
  return tookMs / ALL_SCENARIOS.length;
}

function divide(): void {
  let sum = 0;
  for (let divisor = 1; divisor <= DIVISIONS; divisor += 1) sum += 1 / (divisor + sum);
  if (!(sum > 0)) throw new Error('the sum must be used, or it is not reckoned');
}

function timeMs(work: () => void): number {
  const beganMs = performance.now();
  work();
  return performance.now() - beganMs;
}
