/**
 * A rig by a few lines of its own, for tests of the stages: two volumes behind a line, a pump behind a
 * hose, what walls and water give off. It shares nothing with `simulators/physics`, and is no better
 * than its purpose: events in any order, thousands of sessions in a minute. All sizes: invented.
 */
import { between, logBetween } from './invented-curves.ts';

export interface InventedRig {
  /** Of the near part, where the hose joins, and of the far one. */
  readonly volumesM3: readonly [number, number];
  readonly lineM3PerS: number;
  /** Speed of the pump, and the pressure at which it draws no more. */
  readonly pumpM3PerS: number;
  readonly ultimatePa: number;
  /** A cold pump is so many times worse, for so long. */
  readonly coldFactor: number;
  readonly warmingS: number;
  /** What the hose lets through at no pressure, and how much more for each pascal. */
  readonly hoseM3PerS: number;
  readonly hoseM3PerSPerPa: number;
  /** Walls and oil: capacity as a multiple of the gas beside them. */
  readonly walls: readonly { ratio: number; exchangeS: number; startPa: number }[];
  /** Liquid water: how much, as the pressure that it would make, and how fast it evaporates. */
  readonly waterPa: number;
  readonly evaporatesPerS: number;
  readonly leakPaM3PerS: number;
  /** Air that comes back through a pump that stands still. */
  readonly backPaM3PerS: number;
  readonly nitrogenM3PerS: number;
  readonly nitrogenPa: number;
  readonly driftKPerS: number;
  readonly swingK: number;
  readonly swingS: number;
}

/** What the hands have done so far. */
export interface Hands {
  /** 0 shut, 1 open. */
  valve: number;
  pumpOn: boolean;
  /** Shares of the pump's speed and of the hose's that are there. */
  speed: number;
  hose: number;
  ballastPa: number;
  /** What streams in, and up to which pressure; null: nothing. */
  filling: { readonly untilPa: number } | null;
  heatK: number;
}

export function inventRig(random: () => number): InventedRig {
  const volumeM3 = logBetween(random, 1e-3, 40e-3);
  const farShare = random() < 0.5 ? 0.001 : between(random, 0.2, 0.7);
  const leaks = random() < 0.5;
  return {
    volumesM3: [volumeM3 * (1 - farShare), volumeM3 * farShare],
    lineM3PerS: volumeM3 / logBetween(random, 0.5, 30),
    pumpM3PerS: logBetween(random, 4e-4, 4e-3),
    ultimatePa: random() < 0.2 ? logBetween(random, 30, 300) : logBetween(random, 0.5, 12),
    coldFactor: between(random, 1, 3),
    warmingS: between(random, 300, 1200),
    hoseM3PerS: logBetween(random, 5e-5, 2e-3),
    hoseM3PerSPerPa: logBetween(random, 1e-6, 5e-5),
    walls: Array.from({ length: 3 }, () => ({
      ratio: logBetween(random, 0.005, 2),
      exchangeS: logBetween(random, 20, 6000),
      startPa: logBetween(random, 50, 1500),
    })),
    waterPa: random() < 0.35 ? logBetween(random, 3e3, 8e4) : 0,
    evaporatesPerS: logBetween(random, 0.01, 0.3),
    leakPaM3PerS: leaks ? volumeM3 * logBetween(random, 5e-4, 0.3) : 0,
    backPaM3PerS: random() < 0.3 ? 0 : logBetween(random, 1e-4, 0.3),
    nitrogenM3PerS: logBetween(random, 3e-5, 1e-3),
    nitrogenPa: between(random, 102_000, 130_000),
    driftKPerS: between(random, -4, 4) / 3600,
    swingK: random() < 0.3 ? between(random, 0, 2) : 0,
    swingS: between(random, 10, 60) * 60,
  };
}

const STEP_S = 0.25;
const ATMOSPHERE_PA = 101_325;
/** Vapour pressure of water, per kelvin near 20 °C. */
const VAPOUR_PER_K = 0.064;

/** Goes on in steps of a quarter of a second, implicitly, so that no pump is too fast for it. */
export class InventedRun {
  readonly hands: Hands = {
    valve: 1,
    pumpOn: false,
    speed: 1,
    hose: 1,
    ballastPa: 0,
    filling: null,
    heatK: 0,
  };
  readonly #rig: InventedRig;
  readonly #walls: {
    readonly ratio: number;
    readonly exchangeS: number;
    readonly highestPa: number;
    pressurePa: number;
  }[];
  #waterPa: number;
  #waterVapourPa = 2000;
  #pumpRanS = 0;
  #elapsedS = 0;
  #pressuresPa: [number, number] = [ATMOSPHERE_PA, ATMOSPHERE_PA];

  constructor(rig: InventedRig) {
    this.#rig = rig;
    this.#walls = rig.walls.map(({ startPa, ...wall }) => ({
      ...wall,
      highestPa: 1.5 * startPa,
      pressurePa: startPa,
    }));
    this.#waterPa = rig.waterPa;
  }

  get elapsedS(): number {
    return this.#elapsedS;
  }

  pressurePa(place: 0 | 1): number {
    return this.#pressuresPa[place];
  }

  /** The far part was shut off until now, full of air. */
  openFarPart(): void {
    this.#pressuresPa = [this.#pressuresPa[0], ATMOSPHERE_PA];
  }

  goOn(durationS: number): void {
    for (let leftS = durationS; leftS > 1e-9; leftS -= STEP_S) this.#step(Math.min(STEP_S, leftS));
  }

  #step(stepS: number): void {
    const { volumesM3, lineM3PerS, leakPaM3PerS, driftKPerS, swingK, swingS } = this.#rig;
    const [nearM3, farM3] = volumesM3;
    const [nearPa, farPa] = this.#pressuresPa;
    this.#elapsedS += stepS;
    const warmerK =
      driftKPerS * this.#elapsedS +
      swingK * Math.sin((2 * Math.PI * this.#elapsedS) / swingS) +
      this.hands.heatK;
    const vapour = Math.exp(VAPOUR_PER_K * warmerK);

    const { flowM3PerS, fromPa, inflowPaM3PerS } = this.#atTheHose(nearPa);
    let nearIn = leakPaM3PerS * Math.max(1 - nearPa / ATMOSPHERE_PA, 0) + inflowPaM3PerS;
    for (const wall of this.#walls) {
      // They take up vapour, and of what stands in a full system hardly any is that.
      const besidePa = Math.min(nearPa, wall.highestPa);
      const givenPa = (stepS * (wall.pressurePa * vapour - besidePa)) / (wall.exchangeS + stepS);
      wall.pressurePa -= givenPa;
      nearIn += (wall.ratio * nearM3 * givenPa) / stepS;
    }
    const evaporatedPa = this.#evaporate(farPa, vapour, stepS);
    const farIn = (evaporatedPa * (nearM3 + farM3)) / stepS;

    // Two balances, both pressures taken at the end of the step.
    const a = nearM3 / stepS + flowM3PerS + lineM3PerS;
    const d = farM3 / stepS + lineM3PerS;
    const near = (nearM3 / stepS) * nearPa + flowM3PerS * fromPa + nearIn;
    const far = (farM3 / stepS) * farPa + farIn;
    const determinant = a * d - lineM3PerS * lineM3PerS;
    this.#pressuresPa = [
      Math.max((near * d + lineM3PerS * far) / determinant, 0.01),
      Math.max((far * a + lineM3PerS * near) / determinant, 0.01),
    ];
  }

  /** The pump's pull, or what comes back through it, or what is let in. */
  #atTheHose(nearPa: number) {
    const { hands } = this;
    const rig = this.#rig;
    const hose = hands.hose * (rig.hoseM3PerS + rig.hoseM3PerSPerPa * nearPa);
    const pump = rig.pumpM3PerS * hands.speed;
    if (hands.pumpOn) this.#pumpRanS += STEP_S;
    const cold = 1 + (rig.coldFactor - 1) * Math.exp(-this.#pumpRanS / rig.warmingS);
    const pulls = hands.pumpOn ? (hands.valve * hose * pump) / (hose + pump) : 0;
    const back = hands.pumpOn ? 0 : hands.valve * rig.backPaM3PerS;
    const filling =
      hands.filling === null
        ? 0
        : rig.nitrogenM3PerS * Math.max(Math.min(1e5, 3 * (hands.filling.untilPa - nearPa)), 0);
    return {
      flowM3PerS: pulls,
      fromPa: (rig.ultimatePa * cold) / hands.speed + hands.ballastPa,
      inflowPaM3PerS: back * Math.max(1 - nearPa / ATMOSPHERE_PA, 0) + filling,
    };
  }

  /** It cools itself down to ice, and is warmed again from outside. */
  #evaporate(farPa: number, vapour: number, stepS: number): number {
    if (this.#waterPa <= 0) return 0;
    const { evaporatesPerS } = this.#rig;
    const dryPa = Math.max(this.#waterVapourPa * vapour - farPa, 0);
    const gonePa = Math.min(
      (stepS * evaporatesPerS * dryPa) / (1 + stepS * evaporatesPerS),
      this.#waterPa,
    );
    this.#waterPa -= gonePa;
    const restPa = 2300;
    this.#waterVapourPa += (stepS / 600) * (restPa - this.#waterVapourPa) - 0.15 * gonePa;
    this.#waterVapourPa = Math.max(this.#waterVapourPa, 350);
    return gonePa;
  }
}
