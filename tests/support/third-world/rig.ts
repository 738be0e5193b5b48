/**
 * A rig of the third world: one vessel with everything else hanging on it. It shares no code and no
 * model with the rehearsals' rigs nor with the second world's.
 */

/** A round bore: what gas passes in it falls with the pressure, from viscous to molecular. */
export interface Bore {
  readonly diameterM: number;
  readonly lengthM: number;
}

interface Pump {
  readonly speedM3PerS: number;
  readonly ultimatePa: number;
  /** Below this its speed has fallen to less than half. */
  readonly fallingBelowPa: number;
  /** While it is cold its ultimate pressure is so many times as high, and more. */
  readonly coldFactor: number;
  readonly warmsInS: number;
}

/** Gas behind a narrow passage: a screw's blind hole, a capillary, the tube that the gauge sits at. */
export interface Pocket {
  readonly volumeM3: number;
  readonly passage: Bore;
}

/** Places on the walls that hold water and take it up again. */
export interface WallPlace {
  /** Held per pascal of vapour, as a volume. */
  readonly capacityM3: number;
  readonly tauS: number;
}

/** What only comes out, in Pa·m³/s at so many seconds since the pump was switched on. */
export type Outgassing = (sincePumpOnS: number) => number;

export interface Pool {
  readonly waterKg: number;
  /** How easily vapour leaves its surface and the way to the vessel. */
  readonly evaporationM3PerS: number;
  /** Heat that reaches it. */
  readonly heatWPerK: number;
}

export interface Rig {
  readonly volumeM3: number;
  readonly pump: Pump;
  readonly line: Bore;
  readonly pockets: readonly Pocket[];
  /** Which pocket the gauge is at the end of; null: it sits at the vessel. */
  readonly gaugePocket: number | null;
  readonly places: readonly WallPlace[];
  /** Vapour that the walls were in balance with before, Pa. */
  readonly humidPa: number;
  readonly outgassing: Outgassing;
  readonly pool: Pool | null;
  /** Through pinholes and, where there is rubber, through that; Pa·m³/s. */
  readonly inflowPaM3PerS: number;
  readonly surroundings: Surroundings;
}

export interface Surroundings {
  readonly wallC: (elapsedS: number) => number;
  readonly gaugeC: (elapsedS: number) => number;
}

/** What a steady inflow lifts the pressure by once it has spread. */
export function inflowPaPerS({ inflowPaM3PerS, volumeM3, pockets }: Rig): number {
  return inflowPaM3PerS / pockets.reduce((sum, pocket) => sum + pocket.volumeM3, volumeM3);
}
