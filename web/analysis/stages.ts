/** Which part of the job is going on: from the marks where there are any, else from the curve. */
import type { Mark } from '../../protocol/mark.ts';
import type { TimeBin } from './bin-level.ts';
import type { Stage } from './conclusions.ts';

/** The stage, and the moments that the fits need. */
export interface Stages {
  readonly stage: Stage;
  /** Beginning of the latest pull-down, or null before the first. */
  readonly pullDownS: number | null;
  /** The latest isolation since then, or null. */
  readonly isolatedS: number | null;
  /** When an isolation that nobody marked had become plain, or null. */
  readonly riseSeenS: number | null;
  /** When that hold ended without a new pull-down: the system was opened or filled. */
  readonly ventedS: number | null;
}

/** Below half an atmosphere somebody is pumping; above it, in that direction, the system is open. */
const NEAR_ATMOSPHERE_PA = 50_000;
/** So long near atmosphere (or over range) before the system counts as open. */
const VENTED_FOR_S = 20;
/** An isolation is looked for from twice the target downward: who valves off, is near it. */
const NEAR_TARGET = 2;
/** Isolation shows as a rise of 5 % … */
const RISE_SHARE = 0.05;
/** … above the lowest point of the last three minutes: warming oil drifts more slowly. */
const RISE_WINDOW_S = 180;
/** … that has lasted 20 s and three samples. */
const RISE_FOR_S = 20;
/** A hold found on the curve has ended when the pressure is back down by this share of its peak. */
const REOPENED_SHARE = 0.15;
/** Back within this factor of where it was: the blank was missing readings, not an open system. */
const SAME_PLACE = 3;
/** A marked nitrogen break shows on the curve once the pressure is up by this factor. */
const BROKEN_FACTOR = 10;

interface Point {
  readonly elapsedS: number;
  /** Median of three, or null for over range. */
  readonly pressurePa: number | null;
}

/**
 * @param bins of the whole history, up to now
 * @param marks any; only those up to `nowS` count
 * @param depthPa an isolation is expected near or below this (the target)
 */
export function recogniseStages(
  bins: readonly TimeBin[],
  marks: readonly Mark[],
  depthPa: number,
  nowS: number,
): Stages {
  const reader = new StageReader(depthPa);
  const pending = marks
    .filter((mark) => mark.elapsedS <= nowS)
    .sort((a, b) => a.elapsedS - b.elapsedS || a.id - b.id);
  let next = 0;
  for (const point of smoothed(bins)) {
    for (let mark = pending[next]; mark && mark.elapsedS <= point.elapsedS; mark = pending[next]) {
      reader.mark(mark);
      next += 1;
    }
    reader.point(point);
  }
  for (const mark of pending.slice(next)) reader.mark(mark);
  return reader.stages();
}

function smoothed(bins: readonly TimeBin[]): Point[] {
  return bins.map(({ elapsedS, pressurePa }, i) => {
    const before = bins[i - 1]?.pressurePa ?? null;
    const after = bins[i + 1]?.pressurePa ?? null;
    if (pressurePa === null || before === null || after === null) return { elapsedS, pressurePa };
    const middle = Math.max(Math.min(before, after), Math.min(Math.max(before, after), pressurePa));
    return { elapsedS, pressurePa: middle };
  });
}

/** Goes along the curve once. */
class StageReader {
  readonly #depthPa: number;
  #stage: Stage = { name: 'waiting', sinceS: 0, recognisedBy: 'curve' };
  #pullDownS: number | null = null;
  #isolatedS: number | null = null;
  #riseSeenS: number | null = null;
  #ventedS: number | null = null;
  /** Lowest point of this pull-down, or highest of this hold. */
  #lowestPa = Infinity;
  #peak: Point = { elapsedS: 0, pressurePa: 0 };
  /** Rising sequence of candidates for the lowest point of the last minutes. */
  #recent: { elapsedS: number; pressurePa: number }[] = [];
  #risingSince: { elapsedS: number; samples: number } | null = null;
  #openSince: number | null = null;
  #fallenSince: number | null = null;
  #lastPa: number | null = null;
  /** Of a marked break that the curve doesn't show yet: the pressure before it. */
  #brokenAtPa: number | null = null;
  /** What a blank interrupted, should the curve come back to the same place. */
  #interrupted: (Stages & { readonly pressurePa: number }) | null = null;

  constructor(depthPa: number) {
    this.#depthPa = depthPa;
  }

  stages(): Stages {
    return {
      stage: this.#stage,
      pullDownS: this.#pullDownS,
      isolatedS: this.#isolatedS,
      riseSeenS: this.#riseSeenS,
      ventedS: this.#ventedS,
    };
  }

  mark({ kind, elapsedS }: Mark): void {
    switch (kind) {
      case 'pump_on':
        // Switching the pump on behind a closed valve changes nothing for the system.
        if (this.#stage.name !== 'rise') this.#pullDown(elapsedS, 'mark');
        return;
      case 'reopened':
        this.#pullDown(elapsedS, 'mark');
        return;
      case 'isolated':
        this.#rise(elapsedS, 'mark');
        return;
      case 'pump_off':
        // With the valve still open it is the pump's own valve that isolates, if any.
        if (this.#stage.name === 'pull_down' || this.#stage.name === 'at_depth') {
          this.#rise(elapsedS, 'mark');
        }
        return;
      case 'nitrogen_break':
        this.#vented(elapsedS, 'mark');
        this.#brokenAtPa = this.#lastPa;
        return;
      case 'joints_tightened':
      case 'sections_opened':
      case 'stub_shut':
      case 'stub_opened':
        // Something else leaks now, or the sensor sees something else: a hold begins anew.
        if (this.#stage.name === 'rise') this.#rise(elapsedS, 'mark');
        return;
      case 'ballast_opened':
      case 'ballast_closed':
      case 'cores_out':
      case 'oil_changed':
      case 'battery_changed':
      case 'note':
        return;
    }
  }

  point(point: Point): void {
    const { elapsedS, pressurePa } = point;
    if (this.#isOpen(elapsedS, pressurePa)) {
      this.#brokenAtPa = null;
      return;
    }
    if (pressurePa === null || pressurePa >= NEAR_ATMOSPHERE_PA) return;
    if (this.#brokenAtPa !== null) {
      if (pressurePa > this.#brokenAtPa * BROKEN_FACTOR) this.#brokenAtPa = null;
      return;
    }
    this.#lastPa = pressurePa;
    if (this.#interrupted) this.#takeUpAgain(this.#interrupted, pressurePa);
    switch (this.#stage.name) {
      case 'waiting':
      case 'vented':
        this.#pullDown(elapsedS, 'curve');
        return;
      case 'pull_down':
      case 'at_depth':
        this.#lookForIsolation(elapsedS, pressurePa);
        return;
      case 'rise':
        if (this.#stage.recognisedBy === 'curve') this.#lookForReopening(elapsedS, pressurePa);
        return;
    }
  }

  /** True while the system may be standing open; a silence or a short blank is not that. */
  #isOpen(elapsedS: number, pressurePa: number | null): boolean {
    if (pressurePa !== null && pressurePa < NEAR_ATMOSPHERE_PA) {
      this.#openSince = null;
      return false;
    }
    this.#openSince ??= elapsedS;
    const hasBeenDown = this.#lowestPa < NEAR_ATMOSPHERE_PA;
    if (hasBeenDown && elapsedS - this.#openSince >= VENTED_FOR_S) {
      const before = this.stages();
      this.#vented(this.#openSince, 'curve');
      if (this.#lastPa !== null && before.stage.name !== 'vented') {
        this.#interrupted = { ...before, pressurePa: this.#lastPa };
      }
    }
    return true;
  }

  #takeUpAgain(before: Stages & { readonly pressurePa: number }, pressurePa: number): void {
    this.#interrupted = null;
    if (pressurePa > before.pressurePa * SAME_PLACE) return;
    this.#enter(before.stage);
    this.#pullDownS = before.pullDownS;
    this.#isolatedS = before.isolatedS;
    this.#riseSeenS = before.riseSeenS;
    this.#ventedS = before.ventedS;
    if (before.stage.name === 'rise') this.#lowestPa = 0;
  }

  #lookForIsolation(elapsedS: number, pressurePa: number): void {
    this.#lowestPa = Math.min(this.#lowestPa, pressurePa);
    this.#recent = this.#recent.filter(
      (low) => low.elapsedS >= elapsedS - RISE_WINDOW_S && low.pressurePa < pressurePa,
    );
    this.#recent.push({ elapsedS, pressurePa });
    const lowest = this.#recent[0];
    const isNear = this.#lowestPa <= NEAR_TARGET * this.#depthPa;
    if (!lowest || !isNear || pressurePa < lowest.pressurePa * (1 + RISE_SHARE)) {
      this.#risingSince = null;
      return;
    }
    this.#risingSince ??= { elapsedS, samples: 0 };
    this.#risingSince.samples += 1;
    if (elapsedS - this.#risingSince.elapsedS >= RISE_FOR_S && this.#risingSince.samples >= 3) {
      const seenS = this.#risingSince.elapsedS;
      this.#rise(lowest.elapsedS, 'curve');
      this.#riseSeenS = seenS;
      this.#peak = { elapsedS, pressurePa };
    }
  }

  #lookForReopening(elapsedS: number, pressurePa: number): void {
    const peakPa = this.#peak.pressurePa ?? 0;
    if (pressurePa >= peakPa) this.#peak = { elapsedS, pressurePa };
    if (pressurePa > peakPa * (1 - REOPENED_SHARE)) {
      this.#fallenSince = null;
      return;
    }
    this.#fallenSince ??= elapsedS;
    if (elapsedS - this.#fallenSince >= RISE_FOR_S / 2) {
      this.#pullDown(this.#peak.elapsedS, 'curve');
      this.#lowestPa = pressurePa;
    }
  }

  #pullDown(sinceS: number, recognisedBy: Stage['recognisedBy']): void {
    this.#enter({ name: 'pull_down', sinceS, recognisedBy });
    this.#pullDownS = sinceS;
    this.#isolatedS = null;
  }

  #rise(sinceS: number, recognisedBy: Stage['recognisedBy']): void {
    this.#enter({ name: 'rise', sinceS, recognisedBy });
    this.#pullDownS ??= sinceS;
    this.#isolatedS = sinceS;
    this.#riseSeenS = null;
    this.#lowestPa = 0;
  }

  #vented(sinceS: number, recognisedBy: Stage['recognisedBy']): void {
    this.#enter({ name: 'vented', sinceS, recognisedBy });
    this.#ventedS = sinceS;
  }

  #enter(stage: Stage): void {
    this.#stage = stage;
    this.#ventedS = null;
    this.#interrupted = null;
    this.#brokenAtPa = null;
    this.#lowestPa = Infinity;
    this.#recent = [];
    this.#risingSince = null;
    this.#openSince = null;
    this.#fallenSince = null;
    this.#peak = { elapsedS: stage.sinceS, pressurePa: 0 };
  }
}
