/**
 * What is drawn as the matter with a generated job. How often and how strong: invented, no source.
 * What the job's cause is called is decided afterwards, from the numbers, in `call-cause.ts`.
 */
import { paFromMicron } from '../../../protocol/units.ts';
import type { Chance, Weighted } from './chance.ts';
import type { Difficulty } from './difficulty.ts';
import { everydayWater } from './everyday-water.ts';
import { NO_FAULTS, type Faults, type FreeWater, type HeldGas } from './faults.ts';
import { saturationPa, type Job } from './job.ts';

type Range = readonly [low: number, high: number];

/** What a fault's size is drawn from, evenly over orders of magnitude. */
interface Sizes {
  readonly leakMicronPerMin: Range;
  readonly hoseLeakPa: Range;
  readonly foulPa: Range;
  /** What slow moisture alone adds to a hold, about. */
  readonly moistureMicron: Range;
  readonly refrigerantMicron: Range;
  readonly freeWaterKg: Range;
  readonly freeWaterShare: number;
  readonly wetness: Range;
}

/** Plain: far beyond every limit; hard: on both sides of it. */
const SIZES: Readonly<Record<Difficulty, Sizes>> = {
  plain: {
    leakMicronPerMin: [15, 250],
    hoseLeakPa: [60, 400],
    foulPa: [60, 300],
    moistureMicron: [400, 2500],
    refrigerantMicron: [300, 2000],
    freeWaterKg: [5e-4, 1e-2],
    freeWaterShare: 0.4,
    wetness: [0.2, 0.7],
  },
  mixed: {
    leakMicronPerMin: [5, 60],
    hoseLeakPa: [40, 150],
    foulPa: [35, 120],
    moistureMicron: [150, 900],
    refrigerantMicron: [150, 800],
    freeWaterKg: [2e-4, 3e-3],
    freeWaterShare: 0.3,
    wetness: [0.7, 2],
  },
  hard: {
    leakMicronPerMin: [2, 15],
    hoseLeakPa: [15, 80],
    foulPa: [15, 60],
    moistureMicron: [80, 500],
    refrigerantMicron: [80, 500],
    freeWaterKg: [2e-4, 3e-3],
    freeWaterShare: 0.3,
    wetness: [0.2, 2],
  },
};

interface Ground {
  readonly sizes: Sizes;
  readonly job: Job;
  readonly wetness: number;
}

type Draw = (chance: Chance, ground: Ground) => Partial<Faults>;

const nothing: Draw = () => ({});
const systemLeak: Draw = (chance, { sizes }) => ({
  systemLeakPaPerS: leakPaPerS(chance, sizes),
  leakFar: chance.happens(0.5),
});
const moisture: Draw = (chance, { sizes, job, wetness }) => {
  const saturatedPa = saturationPa(job.metalTemperatureK);
  // The walls take up again what comes out of the depth.
  const takenUp = everydayWater(job, wetness).reduce((sum, { ratio }) => sum + ratio, 1);
  const startPa = chance.between(0.4, 1) * saturatedPa;
  return {
    heldWater: [
      {
        ratio: chance.spread(0.5, 8),
        exchangeS: chance.spread(150, 1500),
        startPa: chance.between(0.2, 1) * saturatedPa,
      },
      slow(chance, { riseMicron: sizes.moistureMicron, takenUp, startPa }),
    ],
    freeWater: chance.happens(sizes.freeWaterShare) ? freeWater(chance, sizes) : null,
  };
};
const refrigerant: Draw = (chance, { sizes }) => {
  const startPa = chance.spread(2000, 20_000);
  return {
    heldRefrigerant: [
      { ratio: chance.spread(0.3, 2), exchangeS: chance.spread(60, 300), startPa },
      slow(chance, { riseMicron: sizes.refrigerantMicron, takenUp: 1, startPa }),
    ],
  };
};

const DRAWS: readonly [Weighted<Draw>, ...Weighted<Draw>[]] = [
  [nothing, 18],
  [moisture, 16],
  [systemLeak, 16],
  [(...given) => ({ ...systemLeak(...given), ...moisture(...given) }), 10],
  [(chance, { sizes }) => ({ stubLeakPaPerS: leakPaPerS(chance, sizes) }), 4],
  [(chance, { sizes }) => ({ hoseLeakPa: chance.spread(...sizes.hoseLeakPa) }), 4],
  [(chance, { sizes }) => ({ chargePaPerS: leakPaPerS(chance, sizes) }), 5],
  [refrigerant, 6],
  [(chance, { sizes }) => ({ foulPa: chance.spread(...sizes.foulPa) }), 5],
  [() => ({ ballastForgotten: true }), 3],
  [() => ({ narrow: true }), 5],
  [() => ({ sensorAtPump: true }), 3],
  [() => ({ farShut: true }), 4],
  [(chance) => ({ batteryS: chance.between(1.5, 7) * 60 }), 5],
  [(chance) => ({ silences: silences(chance, chance.whole(3, 6), [150, 600]) }), 5],
];

/** One thing, or where it is hard, two; and always the moisture of every day. */
export function drawFaults(chance: Chance, difficulty: Difficulty, job: Job): Faults {
  const sizes = SIZES[difficulty];
  const wetness = chance.between(...sizes.wetness);
  const ground = { sizes, job, wetness };
  const little = difficulty === 'plain' ? {} : everyday(chance);
  const first = chance.weighted(DRAWS);
  const second = difficulty === 'hard' ? chance.weighted(DRAWS) : nothing;
  return { ...NO_FAULTS, wetness, ...little, ...first(chance, ground), ...second(chance, ground) };
}

/** No system is as tight as in a book, and no radio hears everything. */
function everyday(chance: Chance): Partial<Faults> {
  return {
    systemLeakPaPerS: chance.happens(0.4) ? paPerS(chance.spread(0.2, 4)) : 0,
    silences: chance.happens(0.5) ? silences(chance, chance.whole(1, 3), [5, 60]) : [],
  };
}

function leakPaPerS(chance: Chance, { leakMicronPerMin }: Sizes): number {
  return paPerS(chance.spread(...leakMicronPerMin));
}

function paPerS(micronPerMin: number): number {
  return paFromMicron(micronPerMin) / 60;
}

interface Slow {
  readonly riseMicron: Range;
  /** How many times as much as the gas itself takes up. */
  readonly takenUp: number;
  readonly startPa: number;
}

/** Gives off so slowly that pumping hardly empties it: in a quarter of an hour, about that rise. */
function slow(chance: Chance, { riseMicron, takenUp, startPa }: Slow): HeldGas {
  const exchangeS = chance.spread(2500, 12_000);
  const risePa = paFromMicron(chance.spread(...riseMicron));
  return { ratio: (takenUp * risePa * exchangeS) / (startPa * 900), exchangeS, startPa };
}

function freeWater(chance: Chance, { freeWaterKg }: Sizes): FreeWater {
  const waterKg = chance.spread(...freeWaterKg);
  // A layer of 0.2 to 2 mm: 1000 kg/m³.
  const areaM2 = waterKg / (1000 * chance.spread(2e-4, 2e-3));
  return {
    waterKg,
    areaM2,
    evaporationShare: chance.spread(0.005, 0.05),
    metalConductanceWPerK: chance.spread(0.1, 1),
  };
}

/** One after another over the first three quarters of an hour, none over another. */
function silences(chance: Chance, count: number, durationS: Range): Faults['silences'] {
  const slotS = (45 * 60) / count;
  return Array.from({ length: count }, (_, slot) => {
    const lastsS = Math.min(Math.round(chance.spread(...durationS)), slotS);
    return {
      fromS: 1 + Math.round(slot * slotS + chance.between(0, slotS - lastsS)),
      durationS: lastsS,
    };
  });
}
