/** Holds that several sensors watched: a pass of one stands only where all others that saw the system bear it out. */
import type { Conclusions } from '../analysis/conclusions.ts';
import { heardTogether, sensorSaid, slowestVerdict } from '../analysis/verdict/slowest-verdict.ts';
import { seesSystem } from '../analysis/verdict/verdict.ts';
import type { Hold, SensorReport } from './report-model.ts';

export function holdsTogether(sensors: readonly SensorReport[]): SensorReport[] {
  const watching = sensors.filter(({ sheet }) => seesSystem(sheet));
  if (watching.length < 2) return [...sensors];
  return sensors.map((sensor) => {
    const holds = sensor.holds.map((hold) => heardIn(hold, sensor, watching));
    return { ...sensor, holds, conclusions: heardLast(sensor.conclusions, holds) };
  });
}

/** Each of them by the latest of its own holds that goes along with this one. */
function heardIn(hold: Hold, { channel }: SensorReport, watching: readonly SensorReport[]): Hold {
  const together = slowestVerdict(
    watching.map((other) => {
      const own =
        other.channel === channel ? hold : other.holds.findLast((one) => isWith(one, hold));
      return sensorSaid(other.channel, own?.rise ?? null, other.sheet);
    }),
  );
  const rise = heardTogether(hold.rise, together);
  return { ...hold, rise, conclusions: { ...hold.conclusions, rise }, together };
}

/** What stands at the end is of the last hold. */
function heardLast(conclusions: Conclusions | null, holds: readonly Hold[]): Conclusions | null {
  const rise = holds.at(-1)?.rise;
  if (conclusions?.rise == null || rise?.sinceS !== conclusions.rise.sinceS) return conclusions;
  return { ...conclusions, rise };
}

function isWith(one: Hold, other: Hold): boolean {
  return one.rise.sinceS < other.untilS && one.untilS > other.rise.sinceS;
}
