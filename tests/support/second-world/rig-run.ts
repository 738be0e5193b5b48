/**
 * A rig as time goes on: partial pressures of air and vapour at three places, by implicit steps that
 * conserve every gas. Conductances are those at the beginning of a step; steps are so short that no
 * pressure changes by much more than `CHANGE_A_STEP`.
 */
import { conductanceM3PerS, type Duct } from './duct.ts';
import { Pool } from './pool.ts';
import { Pump } from './pump.ts';
import { Reservoirs } from './reservoirs.ts';
import { temperatureC, type Rig } from './rig.ts';
import { solveChain, type Chain } from './chain.ts';

/** Half of it is the relative error of a time constant: settings of ours. */
const CHANGE_A_STEP = 0.008;
const SHORTEST_STEP_S = 1e-3;
/** While the pump runs; in a hold a tenth of that, so that no corner shows between steps. */
const LONGEST_STEP_S = 20;
const LONGEST_HOLD_STEP_S = 4;
/** Changes below this don't shorten steps, Pa. */
const CALM_PA = 0.2;

interface Partials {
  far: number;
  near: number;
  hose: number;
}

export class RigRun {
  readonly pump: Pump;
  readonly #rig: Rig;
  readonly #stores: readonly Reservoirs[];
  readonly #pool: Pool | null;
  #hose: Duct;
  #air: Partials;
  #vapour: Partials;
  #stepS = 0.01;
  #runningS = 0;
  elapsedS = 0;
  pumpOn = false;
  /** 1 open, 0 shut, between them while it is being turned. */
  valveOpening = 1;

  constructor(rig: Rig) {
    this.#rig = rig;
    this.#hose = rig.hose;
    this.pump = new Pump(rig.pump);
    this.#stores = rig.stores.map((spectrum) => new Reservoirs(spectrum));
    this.#pool = rig.pool && new Pool(rig.pool, rig.surroundings.startC);
    const air = rig.startPa - rig.startVapourPa;
    this.#air = { far: air, near: air, hose: air };
    const vapour = rig.startVapourPa;
    this.#vapour = { far: vapour, near: vapour, hose: vapour };
  }

  get airPa(): number {
    return this.#air[this.#rig.sensorNode];
  }

  get vapourPa(): number {
    return this.#vapour[this.#rig.sensorNode];
  }

  get temperatureC(): number {
    return temperatureC(this.#rig.surroundings, this.elapsedS);
  }

  get waterKg(): number {
    return this.#pool?.leftKg ?? 0;
  }

  /** Partial pressures to which the system's two parts would even out, Pa. */
  get evened(): { readonly airPa: number; readonly vapourPa: number } {
    const { farM3, nearM3 } = this.#rig;
    const mean = ({ far, near }: Partials) => (far * farM3 + near * nearM3) / (farM3 + nearM3);
    return { airPa: mean(this.#air), vapourPa: mean(this.#vapour) };
  }

  takeCoreOut(): void {
    this.#hose = { ...this.#hose, openingM2: Infinity };
    this.disturb();
  }

  /** After something was done to the rig: steps begin short again. */
  disturb(): void {
    this.#stepS = 0.02;
  }

  /** Trapped air that a valve lets go, as it raises the whole system's pressure. */
  letGo(risePa: number): void {
    const { farM3, nearM3, sensorNode } = this.#rig;
    const volumeM3 = sensorNode === 'near' ? nearM3 : farM3;
    this.#air[sensorNode] += (risePa * (farM3 + nearM3)) / volumeM3;
    this.disturb();
  }

  /** One step, but not beyond `untilS`. */
  step(untilS: number): void {
    const longestS = this.valveOpening > 0 ? LONGEST_STEP_S : LONGEST_HOLD_STEP_S;
    for (;;) {
      const dtS = Math.min(this.#stepS, untilS - this.elapsedS);
      const { air, vapour, settle } = this.#tried(dtS);
      const change = this.#change(air, vapour);
      if (change > 3 * CHANGE_A_STEP && dtS > SHORTEST_STEP_S) {
        this.#stepS = Math.max(dtS / 3, SHORTEST_STEP_S);
        continue;
      }
      settle();
      this.#air = air;
      this.#vapour = vapour;
      this.elapsedS += dtS;
      if (this.pumpOn) this.#runningS += dtS;
      const grow = Math.min(Math.max(CHANGE_A_STEP / (change + 1e-9), 0.4), 1.3);
      // A step that was cut short by `untilS` says nothing about how long the next may be.
      if (dtS >= this.#stepS || grow < 1) this.#stepS = Math.min(dtS * grow, longestS);
      return;
    }
  }

  #change(air: Partials, vapour: Partials): number {
    const relative = (node: keyof Partials) => {
      const beforePa = this.#air[node] + this.#vapour[node];
      const moved =
        Math.abs(air[node] - this.#air[node]) + Math.abs(vapour[node] - this.#vapour[node]);
      return moved / (beforePa + CALM_PA / CHANGE_A_STEP);
    };
    return Math.max(relative('far'), relative('near'));
  }

  #tried(dtS: number) {
    const { line, surroundings } = this.#rig;
    const nowC = this.temperatureC;
    const thenC = temperatureC(surroundings, this.elapsedS + dtS);
    // An ideal gas shut in a volume.
    const warming = (thenC + 273.15) / (nowC + 273.15);
    const [far, near, inHose] = [this.#total('far'), this.#total('near'), this.#total('hose')];
    const lineM3PerS = conductanceM3PerS(line, (far + near) / 2, this.#share('far'), nowC);
    const hoseM3PerS =
      this.valveOpening *
      conductanceM3PerS(this.#hose, (near + inHose) / 2, this.#share('near'), nowC);
    const speed = this.pumpOn ? this.pump.speedM3PerS(inHose, this.#runningS) : 0;
    const floors = this.pump.floorsPa(this.#runningS);
    const air = this.#chain(dtS, warming, this.#air, lineM3PerS, hoseM3PerS, speed);
    const vapour = this.#chain(dtS, warming, this.#vapour, lineM3PerS, hoseM3PerS, speed);
    air.in.hose += speed * floors.air + this.#rig.hoseLeakPaM3PerS;
    vapour.in.hose += speed * floors.vapour;
    // From outside it comes in more slowly once the inside is no longer nearly empty.
    const inside = this.#total(this.#rig.leakNode) / 101_325;
    air.in[this.#rig.leakNode] += this.#rig.leakPaM3PerS * Math.max(1 - inside * inside, 0);

    const warmerK = nowC - surroundings.startC;
    for (const store of this.#stores) {
      const chain = store.gas === 'air' ? air : vapour;
      const { gives, takes } = store.coefficients(dtS, warmerK);
      chain.in[store.node] += gives;
      chain.out[store.node] += takes;
    }
    const boil = this.#pool?.coefficients(dtS, nowC) ?? { gives: 0, takes: 0 };
    if (this.#pool) {
      vapour.in[this.#pool.node] += boil.gives;
      vapour.out[this.#pool.node] += boil.takes;
    }
    const airThen = solveChain(air);
    const vapourThen = solveChain(vapour);
    const settle = () => {
      for (const store of this.#stores) {
        const then = store.gas === 'air' ? airThen : vapourThen;
        store.settle(dtS, warmerK, then[store.node]);
      }
      if (this.#pool) {
        this.#pool.settle(dtS, nowC, boil.gives - boil.takes * vapourThen[this.#pool.node]);
      }
      if (this.pumpOn) this.pump.settle(dtS, speed * (vapourThen.hose - floors.vapour));
    };
    return { air: airThen, vapour: vapourThen, settle };
  }

  #chain(
    dtS: number,
    warming: number,
    partials: Partials,
    lineM3PerS: number,
    hoseM3PerS: number,
    pumpM3PerS: number,
  ): Chain {
    const { farM3, nearM3, hoseM3 } = this.#rig;
    return {
      lineM3PerS,
      hoseM3PerS,
      out: { far: farM3 / dtS, near: nearM3 / dtS, hose: hoseM3 / dtS + pumpM3PerS },
      in: {
        far: (farM3 / dtS) * partials.far * warming,
        near: (nearM3 / dtS) * partials.near * warming,
        hose: (hoseM3 / dtS) * partials.hose * warming,
      },
    };
  }

  /** Never quite nothing, which would have no composition. */
  #total(node: keyof Partials): number {
    return this.#air[node] + this.#vapour[node] + Number.MIN_VALUE;
  }

  #share(node: keyof Partials): number {
    return this.#vapour[node] / this.#total(node);
  }
}
