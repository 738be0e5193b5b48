/** What the accuracy table is made from, whichever world a case comes from. */
import type { Mark } from '../../../protocol/mark.ts';
import type { HistoryPoint } from '../../../web/analysis/readings/history.ts';
import type { RiseClass } from '../../support/second-world/rise-class.ts';

export type WorldName = 'second' | 'simulated' | 'third';

interface Trial {
  readonly world: WorldName;
  readonly seed: number;
  readonly points: readonly HistoryPoint[];
  readonly marks: readonly Mark[];
  /** What the case was drawn as, for whoever looks at failures. */
  readonly facts: Readonly<Record<string, number | string | boolean | null>>;
}

export interface PullDownTrial extends Trial {
  /** Liquid water at the start. */
  readonly wet: boolean;
  readonly pumpOnS: number;
  /** When the sensor would show the target but for its noise; null: never. */
  readonly reachedS: number | null;
  readonly endS: number;
}

export interface RiseTrial extends Trial {
  readonly kind: RiseClass;
  readonly isolatedS: number;
  /** How long the record goes on after that. */
  readonly heldS: number;
  /** Steady inflow as the sensor shows it, Pa/s. */
  readonly leakPaPerS: number;
  /** What the sensor would show but for its noise, Pa. */
  readonly shownAt: (elapsedS: number) => number;
}

/** One rig held twice for a quarter of an hour, pumped on between. */
export interface RepeatTrial extends Trial {
  readonly holds: readonly [RepeatHold, RepeatHold];
  readonly leakPaPerS: number;
}

interface RepeatHold {
  readonly isolatedS: number;
  /** Of its own true curve. */
  readonly kind: RiseClass;
}

/** Cases by their seeds: the same seed gives the same case. */
export interface World {
  readonly name: WorldName;
  readonly pullDown: (seed: number) => PullDownTrial;
  readonly rise: (seed: number) => RiseTrial;
  readonly repeat: (seed: number) => RepeatTrial;
}
