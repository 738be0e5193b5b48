/** Jobs of the simulators as they are drawn, with a technician's hands on them. */
import { paFromMicron } from '../../../protocol/units.ts';
import { SeededRandom } from '../../../simulators/physics/seeded-random.ts';
import { build } from '../../../simulators/scenarios/generated/build.ts';
import { DIFFICULTIES } from '../../../simulators/scenarios/generated/difficulty.ts';
import type { Faults } from '../../../simulators/scenarios/generated/faults.ts';
import { drawAll } from '../../../simulators/scenarios/generated/generate-scenario.ts';
import type { Job } from '../../../simulators/scenarios/generated/job.ts';
import { PlayedRig } from '../../../simulators/scenarios/played-rig.ts';
import { seenOnceIsolated } from '../../../simulators/scenarios/truth.ts';
import type { HistoryPoint } from '../../../web/analysis/readings/history.ts';

export interface Drawn {
  readonly job: Job;
  readonly faults: Faults;
  readonly difficulty: string;
}

/** The first of a seed's draws that is wanted; difficulties go round by seed. */
export function drawJobWhere(seed: number, isWanted: (drawn: Drawn) => boolean): Drawn {
  const difficulty = DIFFICULTIES[seed % DIFFICULTIES.length] ?? 'mixed';
  for (let draw = 0; draw < 500; draw += 1) {
    const { job, faults } = drawAll({ seed: seed * 500 + draw, difficulty });
    // The bar is for a sensor on the system's side, and for pumps that go on running.
    const drawn = {
      job: { ...job, pump: { ...job.pump, batteryS: null } },
      faults: { ...faults, batteryS: null },
      difficulty,
    };
    if (!faults.sensorAtPump && isWanted(drawn)) return drawn;
  }
  throw new Error(`seed ${seed} draws no job of that kind`);
}

/** Steady inflow as the sensor shows it once valved off, Pa/s. */
export function shownLeakPaPerS({ job, faults }: Drawn): number {
  const { risePaPerS } = seenOnceIsolated(build(job, faults));
  const { air, refrigerant } = job.sensor.shownPerPa;
  return (risePaPerS - faults.chargePaPerS) * air + faults.chargePaPerS * refrigerant;
}

/** A reading a second, and what the sensor would show but for noise and steps. */
export class PlayedJob {
  readonly points: HistoryPoint[] = [];
  readonly #shownPa: number[] = [];
  readonly #rig: PlayedRig;
  readonly #silences: Faults['silences'];
  #ballastClosedS: number | null = null;
  readonly #ballastForgotten: boolean;

  constructor({ job, faults }: Drawn, seed: number) {
    const { ballastForgotten, silences } = faults;
    this.#silences = silences;
    this.#ballastForgotten = ballastForgotten;
    this.#rig = new PlayedRig(build(job, faults), {
      sensor: job.sensor,
      random: new SeededRandom(seed % 2 ** 32),
      ballastOpen: job.ballastAtStart || ballastForgotten,
      nitrogenPa: 1.1e5,
    });
  }

  get elapsedS(): number {
    return this.#rig.elapsedS;
  }

  /** What the sensor shows but for noise and steps; over range, what there really is, Pa. */
  get nowPa(): number {
    return this.#rig.quietPa ?? this.#rig.truePa;
  }

  /** What the sensor showed then but for noise and steps, Pa. */
  shownAt(elapsedS: number): number {
    // The first value is that after the first second.
    const place = Math.min(Math.max(elapsedS - 1, 0), this.#shownPa.length - 1);
    const low = Math.floor(place);
    const from = this.#shownPa[low] ?? 0;
    const to = this.#shownPa[low + 1] ?? from;
    return from === to ? from : from + (to - from) * (place - low);
  }

  /** When it was closed by hand, or null. */
  get ballastClosedS(): number | null {
    return this.#ballastClosedS;
  }

  act(action: 'pump_on' | 'isolate' | 'reopen'): void {
    this.#rig.act(action);
  }

  /** A second, with a reading at its end. */
  goOn(): void {
    this.#rig.goOn(1);
    const { elapsedS, nowPa } = this;
    this.#shownPa.push(nowPa);
    const pressurePa = this.#rig.read();
    const isSilent = this.#silences.some(
      ({ fromS, durationS }) => elapsedS >= fromS && elapsedS < fromS + durationS,
    );
    if (!isSilent) {
      this.points.push({
        elapsedS,
        pressurePa,
        condition: pressurePa === null ? 'over_range' : 'ok',
        temperatureC: Math.round(10 * this.#rig.temperatureC) / 10,
      });
    }
    // Common practice: the ballast is closed once the wet rush is over.
    if (!this.#ballastForgotten && this.#ballastClosedS === null && nowPa < paFromMicron(3000)) {
      if (this.#rig.act('ballast_close') !== null) this.#ballastClosedS = elapsedS;
    }
  }

  /** Nobody reads it any more: longer steps, until it is below `pressurePa` or `untilS`. */
  everBelow(pressurePa: number, untilS: number): boolean {
    while (this.elapsedS < untilS && this.nowPa > pressurePa) this.#rig.goOn(30);
    return this.nowPa <= pressurePa;
  }
}
