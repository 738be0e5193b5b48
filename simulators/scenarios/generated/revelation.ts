/** What a generated job's trainee is told after the call. */
import type { RehearsalCause } from '../../../protocol/api.ts';
import { micronFromPa } from '../../../protocol/units.ts';
import type { Faults } from './faults.ts';

interface Revelation {
  /** What was really wrong. */
  readonly truth: string;
  /** Which part of the curve told, and what to do about it. */
  readonly tells: string;
}

const REVELATIONS: Readonly<Record<RehearsalCause, (faults: Faults) => Revelation>> = {
  in_order: () => ({
    truth: 'In order: nothing came to a limit.',
    tells:
      'It came down to the depth, and the hold bent over below the limit. Such a system holds.',
  }),
  moisture: ({ freeWater }) => ({
    truth:
      'Moisture and no leak worth the name: ' +
      (freeWater
        ? `${(freeWater.waterKg * 1000).toPrecision(2)} g of water lay in it, and oil and walls held more.`
        : 'oil and walls held far more water than they should.'),
    tells:
      'In the hold it rose quickly at first and then ever less. Free water also halts the pull-down ' +
      'near the triple point or below. A nitrogen break and another pull-down take it out.',
  }),
  leak: ({ systemLeakPaPerS }) => ({
    truth: `A leak of the system: ${perMinute(systemLeakPaPerS)}.`,
    tells:
      'In the hold it became a straight line and stayed one. Find the place under nitrogen with soap ' +
      'solution, repair it, and begin again.',
  }),
  leak_and_moisture: ({ systemLeakPaPerS }) => ({
    truth: `A leak of the system, ${perMinute(systemLeakPaPerS)}, and moisture besides.`,
    tells:
      'The hold rose fast and bent over, as water does, but into a straight line that stayed. First ' +
      'find the leak under nitrogen; drying comes after.',
  }),
  gear_leak: ({ stubLeakPaPerS }) => ({
    truth:
      stubLeakPaPerS > 0
        ? `The joint of the sensor leaked: ${perMinute(stubLeakPaPerS)}. The system did not.`
        : 'The joint of the hose at the pump leaked. The system did not.',
    tells:
      'A leak of the hose halts the pull-down and is gone as soon as the valve is closed; one at the ' +
      'sensor goes on in the hold, and far faster once the stub is shut off. Try the gear by itself ' +
      'before looking for a leak in the system.',
  }),
  charged_side: ({ chargePaPerS }) => ({
    truth: `Refrigerant came past a valve from the charged side: ${perMinute(chargePaPerS)}.`,
    tells:
      'A straight line in the hold, as of a leak to the air; yet nitrogen finds no place outside. The ' +
      'valve has to be closed or replaced.',
  }),
  refrigerant: () => ({
    truth: 'Refrigerant was dissolved in the oil and came out under the vacuum.',
    tells:
      'A rise that bends over as with moisture, without a halt near the triple point. Longer pumping ' +
      'and warmth take it out; a second hold rises less.',
  }),
  pump_or_oil: ({ foulPa }) => ({
    truth: `The pump’s oil was foul: it got no deeper than some ${micron(foulPa)} micron by itself.`,
    tells:
      'The pull-down levelled off above the depth, and stood still when the valve was closed. ' +
      'Change the oil while the pump is warm, and try the pump by itself.',
  }),
  ballast_open: () => ({
    truth: 'The gas ballast of the pump was never closed.',
    tells:
      'The pull-down levelled off near 1500 micron, and the hold stood still. Close the ballast below ' +
      '3000 micron.',
  }),
  narrow_way: () => ({
    truth: 'The valve cores were left in, and the hose was thin.',
    tells:
      'It came down in the right shape but slowly, the more so the deeper it got. Take the cores out, ' +
      'and use a short wide hose.',
  }),
  sensor_place: () => ({
    truth: 'The sensor sat at the pump’s end of the hose, not at the system.',
    tells:
      'It came down too fast, and fell further when the valve was closed: it had lost the system. Put ' +
      'the sensor on the system, as far from the pump as the piping lets you.',
  }),
  part_shut_off: () => ({
    truth: 'A valve in the system was shut: part of it was never pumped down.',
    tells:
      'It came down faster than its size allows. Open every valve of the system, with power where one ' +
      'needs it, and pump again.',
  }),
  battery: ({ batteryS }) => ({
    truth: `The pump’s battery ran out after ${((batteryS ?? 0) / 60).toFixed(0)} minutes.`,
    tells:
      'The curve turned upward at once though nobody had touched anything. Valve off before the ' +
      'battery is changed, or air and oil are drawn back.',
  }),
  radio: () => ({
    truth: 'The system was in order; the radio lost long stretches of the curve.',
    tells:
      'Where nothing was heard, nothing is known. Bring the laptop nearer, and judge by a hold that ' +
      'was heard as a whole.',
  }),
};

export function revelationOf(cause: RehearsalCause, faults: Faults): Revelation {
  return REVELATIONS[cause](faults);
}

function perMinute(paPerS: number): string {
  return `${micron(paPerS * 60)} micron a minute`;
}

function micron(pressurePa: number): string {
  return micronFromPa(pressurePa).toPrecision(2);
}
