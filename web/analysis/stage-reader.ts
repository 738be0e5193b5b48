/** Goes along the curve once, with the marks, and tells the stages as they come. */
import type { Mark } from '../../protocol/mark.ts';
import { BendWatch } from './bend-watch.ts';
import type { Stage, StageName } from './conclusions.ts';
import { filledBy, NEAR_ATMOSPHERE_PA } from './filling.ts';
import { turnedUp } from './isolation-signs.ts';
import type { Trace } from './trace.ts';

/** A stretch of the job, and when it had become plain. */
export interface Spell {
  readonly stage: Stage;
  readonly seenS: number;
}

/** So long over range or near atmosphere before the system counts as filled. */
const FILLED_FOR_S = 20;
/** Back within this factor of where it was: the blank was missing readings, not an open system. */
const SAME_PLACE = 3;
/** A marked nitrogen break shows on the curve once the pressure is up by this factor. */
const BROKEN_FACTOR = 10;
/** A pull-down has begun once the sensor has been in range for so long. */
const IN_RANGE_S = 4;
const IN_RANGE_READINGS = 3;
/** … and has fallen to this part of where it stood, or has been in range for so long from the beginning. */
const FALLEN_SHARE = 0.85;
const IN_VACUUM_S = 30;
/** After a hold as long as that somebody may have been content. */
const CONTENT_S = 300;

export class StageReader {
  readonly #trace: Trace;
  readonly #depthPa: number;
  readonly #up: BendWatch;
  readonly #down: BendWatch;
  readonly #spells: Spell[] = [
    {
      stage: { name: 'waiting', sinceS: 0, recognisedBy: 'curve', alternatives: [] },
      seenS: 0,
    },
  ];
  /** Latest in-range reading, −1 before the first. */
  #latest = -1;
  #nowS = 0;
  #openSince: number | null = null;
  #filled: ReturnType<typeof filledBy> | null = null;
  #inRange: { readonly sinceS: number; readings: number } | null = null;
  #topPa = 0;
  /** Highest of this stage. */
  #peakPa = 0;
  #fallPerS = 0;
  /** Of a marked break that the curve doesn't show yet: the pressure before it. */
  #brokenAtPa: number | null = null;
  /** What a blank interrupted, should the curve come back to the same place. */
  #interrupted: { readonly spells: number; readonly pressurePa: number } | null = null;

  constructor(trace: Trace, depthPa: number) {
    this.#trace = trace;
    this.#depthPa = depthPa;
    this.#up = new BendWatch(trace, 1);
    this.#down = new BendWatch(trace, -1);
  }

  get spells(): readonly Spell[] {
    return this.#spells;
  }

  get #stage(): Stage {
    const latest = this.#spells.at(-1);
    if (!latest) throw new Error('there is always a stage');
    return latest.stage;
  }

  mark({ kind, elapsedS }: Mark): void {
    const { name } = this.#stage;
    switch (kind) {
      case 'pump_on':
        // Switching the pump on behind a closed valve changes nothing for the system.
        if (name !== 'rise') this.#enter('pull_down', elapsedS, 'mark');
        return;
      case 'reopened':
        this.#enter('pull_down', elapsedS, 'mark');
        return;
      case 'isolated':
        this.#enter('rise', elapsedS, 'mark');
        return;
      case 'pump_off':
        // With the valve still open it is the pump's own valve that isolates, if any.
        if (name === 'pull_down') this.#enter('pump_stopped', elapsedS, 'mark');
        return;
      case 'nitrogen_break':
        this.#enter('nitrogen_break', elapsedS, 'mark');
        this.#brokenAtPa = this.#latest < 0 ? null : (this.#trace.pressuresPa[this.#latest] ?? null);
        return;
      case 'joints_tightened':
      case 'sections_opened':
      case 'stub_shut':
      case 'stub_opened':
        // Something else leaks now, or the sensor sees something else: a hold begins anew.
        if (name === 'rise') this.#enter('rise', elapsedS, 'mark');
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

  overRange(elapsedS: number): void {
    this.#nowS = elapsedS;
    this.#inRange = null;
    this.#peakPa = this.#topPa;
    this.#open(elapsedS, this.#topPa);
  }

  reading(index: number): void {
    const trace = this.#trace;
    const elapsedS = trace.timeS(index);
    const pressurePa = trace.pressuresPa[index] ?? 0;
    this.#nowS = elapsedS;
    this.#peakPa = Math.max(this.#peakPa, pressurePa);
    if (pressurePa >= NEAR_ATMOSPHERE_PA) {
      this.#inRange = null;
      this.#open(elapsedS, pressurePa);
      this.#topPa = Math.max(this.#topPa, pressurePa);
      return;
    }
    this.#topPa = Math.max(this.#topPa, pressurePa);
    this.#latest = index;
    const wasOpen = this.#openSince !== null;
    this.#openSince = null;
    this.#filled = null;
    if (this.#brokenAtPa !== null) {
      if (pressurePa > this.#brokenAtPa * BROKEN_FACTOR) this.#brokenAtPa = null;
      return;
    }
    if (this.#interrupted) this.#takeUpAgain(this.#interrupted, pressurePa);
    if (wasOpen) {
      this.#up.begin(index);
      this.#down.begin(index);
    }
    switch (this.#stage.name) {
      case 'waiting':
      case 'vented':
      case 'nitrogen_break':
        this.#lookForFalling(elapsedS, pressurePa);
        return;
      case 'pull_down':
      case 'at_depth':
        this.#lookForTurn(index);
        return;
      case 'rise':
      case 'pump_stopped':
        this.#lookForReopening(index);
        return;
    }
  }

  /** Over range or near atmosphere; a silence or a short blank is not that. */
  #open(elapsedS: number, topPa: number): void {
    this.#brokenAtPa = null;
    this.#openSince ??= elapsedS;
    const { name } = this.#stage;
    if (this.#latest < 0 || name === 'waiting' || name === 'vented' || name === 'nitrogen_break') {
      return;
    }
    this.#filled ??= filledBy(this.#trace, this.#latest, {
      nowS: elapsedS,
      topPa,
      fallPerS: this.#fallPerS,
    });
    if (elapsedS - this.#openSince < FILLED_FOR_S) return;
    if (!this.#filled.fast && topPa < NEAR_ATMOSPHERE_PA) return;
    const pressurePa = this.#filled.footPa;
    const spells = this.#spells.length;
    const since = this.#filled.sinceS;
    const content = name === 'rise' && since - this.#stage.sinceS >= CONTENT_S;
    const names: StageName[] = content ? ['vented', 'nitrogen_break'] : ['nitrogen_break', 'vented'];
    if (name === 'pull_down' || name === 'pump_stopped') names.push('pump_stopped');
    const [first = 'vented', ...others] = names;
    this.#enter(first, since, 'curve', others);
    this.#interrupted = { spells, pressurePa };
  }

  #takeUpAgain(before: { readonly spells: number; readonly pressurePa: number }, nowPa: number) {
    this.#interrupted = null;
    if (nowPa > before.pressurePa * SAME_PLACE) return;
    this.#spells.length = before.spells;
  }

  #lookForFalling(elapsedS: number, pressurePa: number): void {
    this.#inRange ??= { sinceS: elapsedS, readings: 0 };
    this.#inRange.readings += 1;
    const { sinceS, readings } = this.#inRange;
    if (readings < IN_RANGE_READINGS || elapsedS - sinceS < IN_RANGE_S) return;
    if (pressurePa > FALLEN_SHARE * this.#peakPa && !this.#waitsInVacuum(elapsedS - sinceS)) return;
    this.#enter('pull_down', sinceS, 'curve');
  }

  /** A recording may begin in the midst of a pull-down. */
  #waitsInVacuum(inRangeS: number): boolean {
    return this.#stage.name === 'waiting' && inRangeS >= IN_VACUUM_S;
  }

  #lookForTurn(index: number): void {
    this.#fallPerS = this.#up.fastestFallPerS;
    for (const bend of this.#up.look(index)) {
      const turn = turnedUp(bend, {
        nowS: this.#trace.timeS(index),
        bendPa: Math.exp(bend.log),
        depthPa: this.#depthPa,
        fallPerS: this.#fallPerS,
      });
      if (!turn) continue;
      this.#enter(turn.name, bend.atS, 'curve', turn.alternatives);
      return;
    }

  }

  #lookForReopening(index: number): void {
    for (const bend of this.#down.look(index)) {
      if (bend.sigmas < 6) continue;
      const drop = -bend.since;
      const least = this.#stage.recognisedBy === 'mark' ? 0.3 : 0.03;
      if (drop < Math.max(least, 2.5 * bend.stepShare)) continue;
      if (bend.afterPerS > -0.0005) continue;
      this.#enter('pull_down', bend.atS, 'curve');
      return;
    }
  }

  #enter(
    name: StageName,
    sinceS: number,
    recognisedBy: Stage['recognisedBy'],
    alternatives: readonly StageName[] = [],
  ): void {
    this.#spells.push({
      stage: { name, sinceS, recognisedBy, alternatives },
      seenS: Math.max(this.#nowS, sinceS),
    });
    this.#interrupted = null;
    this.#brokenAtPa = null;
    this.#openSince = null;
    this.#filled = null;
    this.#inRange = null;
    this.#peakPa = 0;
    const from = this.#firstAfter(sinceS);
    this.#up.begin(from);
    this.#down.begin(from);
  }

  #firstAfter(sinceS: number): number {
    let first = this.#latest + 1;
    while (first > 0 && this.#trace.timeS(first - 1) >= sinceS) first -= 1;
    return first;
  }
}
