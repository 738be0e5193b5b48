/** What to call a system that was filled: by how it went, and by the pressure where the sensor knows it. */
import type { Stage, StageName } from '../conclusions.ts';
import type { Fill } from './fill-watch.ts';

type Names = readonly [StageName, ...StageName[]];

/** After a hold as long as that somebody may have been content, and have opened the system. */
const CONTENT_S = 300;
/** A sensor of the trade shows the atmosphere twice within this share of it; nitrogen stands higher. */
const SAME_SHARE = 0.006;
const HIGHER_SHARE = 0.025;
/** Where the sensor has not shown the atmosphere before: no weather and no valley is that high, Pa. */
const ABOVE_ANY_ATMOSPHERE_PA = 110_000;
/** It takes so long to come to rest. */
const SETTLED_S = 90;
/** A level forgets within so many readings. */
const LEVEL_OVER = 16;
/** It is one while so many readings in a row are so near to it. */
const STEADY_SHARE = 0.03;
const STEADY_READINGS = 4;

/** The latest level at which a pressure has stood, freed of noise; null before it has. */
export class Level {
  #pa: number | null = null;
  #meanPa: number | null = null;
  #steady = 0;
  #cut = false;

  get pa(): number | null {
    return this.#cut ? null : this.#pa;
  }

  /** Goes on from where another one is, which stays there. */
  become(other: Level): void {
    this.#pa = other.#pa;
    this.#meanPa = other.#meanPa;
    this.#steady = other.#steady;
    this.#cut = other.#cut;
  }

  see(pressurePa: number): void {
    const before = this.#meanPa ?? pressurePa;
    this.#meanPa = before + (pressurePa - before) / LEVEL_OVER;
    this.#steady = Math.abs(pressurePa / before - 1) < STEADY_SHARE ? this.#steady + 1 : 0;
    if (this.#steady >= STEADY_READINGS) this.#pa = this.#meanPa;
  }

  /** It was over range at times: what was shown is cut off at the top. */
  cut(): void {
    this.#cut = true;
  }

  forget(): void {
    this.#cut = false;
    this.#pa = null;
    this.#meanPa = null;
    this.#steady = 0;
  }
}

/** The likeliest first. */
export function filledNames(fill: Fill, before: Stage): Names {
  if (before.name !== 'rise') {
    return fill.stillRising
      ? ['pump_stopped', 'nitrogen_break', 'vented']
      : ['nitrogen_break', 'vented', 'pump_stopped'];
  }
  return fill.sinceS - before.sinceS >= CONTENT_S
    ? ['vented', 'nitrogen_break']
    : ['nitrogen_break', 'vented'];
}

/**
 * Nitrogen stands above the atmosphere, an open system at it.
 * @returns null while it can't be told
 */
export function namesByLevel(
  levelPa: number | null,
  atmospherePa: number | null,
  forS: number,
): Names | null {
  if (forS < SETTLED_S || levelPa === null) return null;
  if (atmospherePa === null) return levelPa > ABOVE_ANY_ATMOSPHERE_PA ? ['nitrogen_break'] : null;
  const above = levelPa / atmospherePa - 1;
  if (above > HIGHER_SHARE) return ['nitrogen_break'];
  return Math.abs(above) < SAME_SHARE ? ['vented'] : null;
}
