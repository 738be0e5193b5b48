/**
 * The vessel's gas from one moment to the next, air and vapour apart: implicit Euler over a star, whose
 * middle is the vessel and whose rays are pockets and the places on the walls.
 */
import { conductance } from './bore.ts';
import { PoolState } from './pool-state.ts';
import type { Rig } from './rig.ts';

const ATMOSPHERE_PA = 101_325;
const REFERENCE_K = 293.15;
/** Of water on metal: J/mol over the gas constant. */
const DESORPTION_K = 6000;

interface Gas {
  vesselPa: number;
  readonly pocketsPa: number[];
}

export class Vessel {
  readonly #rig: Rig;
  readonly #air: Gas;
  readonly #vapour: Gas;
  readonly #heldPaM3: number[];
  readonly #pool: PoolState | null;

  constructor(rig: Rig) {
    this.#rig = rig;
    const vapourPa = rig.humidPa;
    this.#air = filled(rig, ATMOSPHERE_PA - vapourPa);
    this.#vapour = filled(rig, vapourPa);
    this.#heldPaM3 = rig.places.map(({ capacityM3 }) => capacityM3 * vapourPa);
    this.#pool = rig.pool && new PoolState(rig.pool, kelvin(rig.surroundings.wallC(0)));
  }

  /** Where the gauge is, at the walls' temperature. */
  gaugePa(elapsedS: number): number {
    const pocket = this.#rig.gaugePocket;
    const at = ({ vesselPa, pocketsPa }: Gas) =>
      pocket === null ? vesselPa : (pocketsPa[pocket] ?? vesselPa);
    const warmth = kelvin(this.#rig.surroundings.wallC(elapsedS)) / REFERENCE_K;
    return (at(this.#air) + at(this.#vapour)) * warmth;
  }

  /** @param pumpingS since it was switched on; null: valved off */
  step(elapsedS: number, stepS: number, sincePumpOnS: number, pumpingS: number | null): void {
    const rig = this.#rig;
    const totalPa = this.#air.vesselPa + this.#vapour.vesselPa;
    const passages = rig.pockets.map(({ passage }, i) => {
      const insidePa = (this.#air.pocketsPa[i] ?? 0) + (this.#vapour.pocketsPa[i] ?? 0);
      return conductance(passage, (totalPa + insidePa) / 2);
    });
    const pull = pumpingS === null ? null : pullOf(rig, totalPa, pumpingS);
    const airIn = rig.inflowPaM3PerS + (pull === null ? 0 : pull.speedM3PerS * pull.backPa);
    const speed = pull?.speedM3PerS ?? 0;
    advance(rig, this.#air, passages, stepS, {
      outM3: speed * stepS,
      inPaM3: airIn * stepS,
    });
    this.#stepVapour(passages, elapsedS, stepS, speed, sincePumpOnS);
  }

  #stepVapour(
    passages: readonly number[],
    elapsedS: number,
    stepS: number,
    speed: number,
    sincePumpOnS: number,
  ): void {
    const rig = this.#rig;
    const wallK = kelvin(rig.surroundings.wallC(elapsedS));
    const looser = Math.exp(DESORPTION_K * (1 / REFERENCE_K - 1 / wallK));
    let outM3 = speed * stepS;
    let inPaM3 = rig.outgassing(sincePumpOnS) * looser * stepS;
    rig.places.forEach(({ capacityM3, tauS }, i) => {
      const share = stepS / tauS / (1 + (stepS / tauS) * looser);
      outM3 += share * capacityM3;
      inPaM3 += share * looser * (this.#heldPaM3[i] ?? 0);
    });
    const evaporationM3 = (this.#pool?.evaporationM3PerS ?? 0) * stepS;
    const vapourPa = this.#pool?.vapourPa ?? 0;
    const supply = { outM3: outM3 + evaporationM3, inPaM3: inPaM3 + evaporationM3 * vapourPa };
    advance(rig, this.#vapour, passages, stepS, supply);
    const nowPa = this.#vapour.vesselPa;
    rig.places.forEach(({ capacityM3, tauS }, i) => {
      const share = stepS / tauS;
      const heldPaM3 = this.#heldPaM3[i] ?? 0;
      this.#heldPaM3[i] = (heldPaM3 + share * capacityM3 * nowPa) / (1 + share * looser);
    });
    this.#pool?.step(stepS, evaporationM3 * (vapourPa - nowPa), wallK);
  }
}

function filled({ pockets }: Rig, pressurePa: number): Gas {
  return { vesselPa: pressurePa, pocketsPa: pockets.map(() => pressurePa) };
}

const kelvin = (temperatureC: number) => temperatureC + 273.15;

/** The pump through its line, and what it gives back at its ultimate pressure. */
function pullOf({ pump, line }: Rig, totalPa: number, pumpingS: number) {
  const { speedM3PerS, ultimatePa, fallingBelowPa, coldFactor, warmsInS } = pump;
  const atPump = speedM3PerS * (totalPa / (totalPa + fallingBelowPa));
  const through = 1 / (1 / atPump + 1 / conductance(line, totalPa / 2));
  const cold = 1 + (coldFactor - 1) * Math.exp(-pumpingS / warmsInS);
  return { speedM3PerS: through, backPa: ultimatePa * cold };
}

interface Supply {
  readonly outM3: number;
  readonly inPaM3: number;
}

function advance(
  { volumeM3, pockets }: Rig,
  gas: Gas,
  passages: readonly number[],
  stepS: number,
  { outM3, inPaM3 }: Supply,
): void {
  let capacity = volumeM3 + outM3;
  let content = volumeM3 * gas.vesselPa + inPaM3;
  pockets.forEach((pocket, i) => {
    const passedM3 = (passages[i] ?? 0) * stepS;
    const reached = (passedM3 * pocket.volumeM3) / (pocket.volumeM3 + passedM3);
    capacity += reached;
    content += reached * (gas.pocketsPa[i] ?? 0);
  });
  gas.vesselPa = content / capacity;
  pockets.forEach((pocket, i) => {
    const passedM3 = (passages[i] ?? 0) * stepS;
    const heldPaM3 = pocket.volumeM3 * (gas.pocketsPa[i] ?? 0);
    gas.pocketsPa[i] = (heldPaM3 + passedM3 * gas.vesselPa) / (pocket.volumeM3 + passedM3);
  });
}
