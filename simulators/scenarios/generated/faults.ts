/** What can be the matter with a generated job, in numbers. */

/** Water or refrigerant held by oil and walls, in proportion to the volume that it gives off into. */
export interface HeldGas {
  /** How many times what that volume's gas would be at the same pressure. */
  readonly ratio: number;
  readonly exchangeS: number;
  /** In balance with so much at the start, Pa. */
  readonly startPa: number;
}

export interface FreeWater {
  readonly waterKg: number;
  readonly areaM2: number;
  readonly evaporationShare: number;
  readonly metalConductanceWPerK: number;
}

export interface Faults {
  /** Steady rises with all valved off, Pa/s, by where the gas comes in. */
  readonly systemLeakPaPerS: number;
  /** The leak is beyond the line, where the system is split. */
  readonly leakFar: boolean;
  /** At the joint of the sensor. */
  readonly stubLeakPaPerS: number;
  /** Past a valve from the charged side. */
  readonly chargePaPerS: number;
  /** A leak of the hose that alone would hold so much at the pump, Pa. */
  readonly hoseLeakPa: number;
  /** Everyday moisture of walls and oil, as a multiple of what is usual. */
  readonly wetness: number;
  readonly heldWater: readonly HeldGas[];
  readonly freeWater: FreeWater | null;
  readonly heldRefrigerant: readonly HeldGas[];
  /** What dirt in the pump's oil adds to its ultimate pressure, Pa. */
  readonly foulPa: number;
  readonly ballastForgotten: boolean;
  /** How long a battery lasts that was not charged, s; null: as the job's. */
  readonly batteryS: number | null;
  /** A thin hose with the cores left in, in place of the job's. */
  readonly narrow: boolean;
  /** The far part's valve stands shut. */
  readonly farShut: boolean;
  /** The sensor sits at the pump's end of the hose. */
  readonly sensorAtPump: boolean;
  /** Stretches in which no reading gets through. */
  readonly silences: readonly { readonly fromS: number; readonly durationS: number }[];
}

/** A well dried system on well kept gear. */
export const NO_FAULTS: Faults = {
  systemLeakPaPerS: 0,
  leakFar: false,
  stubLeakPaPerS: 0,
  chargePaPerS: 0,
  hoseLeakPa: 0,
  wetness: 0.1,
  heldWater: [],
  freeWater: null,
  heldRefrigerant: [],
  foulPa: 0,
  ballastForgotten: false,
  batteryS: null,
  narrow: false,
  farShut: false,
  sensorAtPump: false,
  silences: [],
};
