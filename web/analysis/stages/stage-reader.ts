/** Goes along the curve once, with the marks, and tells the stages as they come. */
import type { Mark } from '../../../protocol/mark.ts';
import type { Stage, StageName } from '../conclusions.ts';
import { BendWatch } from './bend-watch.ts';
import type { Bend } from './bend.ts';
import { FallStart } from './fall-start.ts';
import { FillWatch, NEAR_ATMOSPHERE_PA, type Fill } from './fill-watch.ts';
import { filledNames, Level, namesByLevel } from './filled-names.ts';
import { fallPerS } from './filling.ts';
import { turnedUp, valvedOffUnseen } from './isolation-signs.ts';
import { stageBegunBy } from './mark-effects.ts';
import { isReopening } from './reopening-signs.ts';
import { rigChange, type RigChange } from './rig-change.ts';
import { SlowRise } from './slow-rise.ts';
import { Spells, type Spell } from './spells.ts';
import type { Trace } from './trace.ts';

/** Back within this factor of where it was: the blank was missing readings, not an open system. */
const SAME_PLACE = 3;
/** A pull-down that has just begun has valves yet to be opened. */
const BEGINS_S = 30;
/** Who leaves the range by its upper end, has last been seen near it. */
const NEAR_TOP = 0.5;
/** A marked nitrogen break shows on the curve once the pressure is up by this factor. */
const BROKEN_FACTOR = 10;

export class StageReader {
  readonly #trace: Trace;
  readonly #depthPa: number;
  readonly #up: BendWatch;
  readonly #down: BendWatch;
  readonly #slow: SlowRise;
  readonly #fill: FillWatch;
  readonly #start: FallStart;
  readonly #spells = new Spells();
  /** Latest reading well below atmosphere, −1 before the first. */
  #latest = -1;
  #nowS = 0;
  #firstS: number | null = null;
  /** What it showed before the first pull-down, and what after, where it knows the atmosphere. */
  readonly #atmosphere = new Level();
  readonly #level = new Level();
  #fallPerS = 0;
  /** A rise has left the sensor's range by its upper end. */
  #roseOut = false;
  #rigChanged: RigChange | null = null;
  /** Of a marked break that the curve doesn't show yet: the pressure before it. */
  #brokenAtPa: number | null = null;
  /** What a blank interrupted, should the curve come back to the same place. */
  #interrupted: { readonly spells: number; readonly pressurePa: number } | null = null;

  constructor(trace: Trace, depthPa: number) {
    this.#trace = trace;
    this.#depthPa = depthPa;
    this.#up = new BendWatch(trace, 1);
    this.#down = new BendWatch(trace, -1);
    this.#slow = new SlowRise(trace);
    this.#fill = new FillWatch(trace);
    this.#start = new FallStart(trace);
  }

  get spells(): readonly Spell[] {
    return this.#spells.all;
  }

  /** Goes on from where another one is, which stays there: on the same curve. */
  become(other: StageReader): void {
    this.#up.become(other.#up);
    this.#down.become(other.#down);
    this.#slow.become(other.#slow);
    this.#fill.become(other.#fill);
    this.#start.become(other.#start);
    this.#spells.become(other.#spells);
    this.#atmosphere.become(other.#atmosphere);
    this.#level.become(other.#level);
    this.#latest = other.#latest;
    this.#nowS = other.#nowS;
    this.#firstS = other.#firstS;
    this.#fallPerS = other.#fallPerS;
    this.#roseOut = other.#roseOut;
    this.#rigChanged = other.#rigChanged;
    this.#brokenAtPa = other.#brokenAtPa;
    this.#interrupted = other.#interrupted;
  }

  /** The latest in this pull-down. */
  get rigChanged(): RigChange | null {
    return this.#rigChanged;
  }

  get #stage(): Stage {
    return this.#spells.stage;
  }

  mark({ kind, elapsedS }: Mark): void {
    const name = stageBegunBy(kind, this.#stage.name);
    if (name === null) return;
    this.#enter(name, elapsedS, 'mark');
    if (name === 'nitrogen_break' && this.#latest >= 0) {
      this.#brokenAtPa = this.#trace.pressurePa(this.#latest);
    }
  }

  overRange(elapsedS: number): void {
    this.#nowS = elapsedS;
    this.#firstS ??= elapsedS;
    this.#above(elapsedS, null);
  }

  reading(index: number): void {
    const elapsedS = this.#trace.timeS(index);
    const pressurePa = this.#trace.pressurePa(index);
    this.#nowS = elapsedS;
    this.#firstS ??= elapsedS;
    if (pressurePa >= NEAR_ATMOSPHERE_PA) {
      this.#above(elapsedS, pressurePa);
      return;
    }
    this.#start.below(elapsedS, pressurePa);
    this.#fallPerS = Math.max(this.#fallPerS, fallPerS(this.#trace, index));
    if (this.#fill.isBlank(index)) return;
    if (this.#fill.isOpen) this.#endBlank(index, pressurePa);
    this.#latest = index;
    if (this.#brokenAtPa !== null) {
      if (pressurePa > this.#brokenAtPa * BROKEN_FACTOR) this.#brokenAtPa = null;
      return;
    }
    if (!this.#isFilled()) {
      const fill = this.#fill.within(index, this.#before());
      if (fill) this.#enterFilled(fill);
      else if (this.#fill.rushing) return;
      this.#seeOpened();
    }
    this.#look(index);
  }

  #look(index: number): void {
    switch (this.#stage.name) {
      case 'waiting':
      case 'vented':
      case 'nitrogen_break':
        this.#lookForFalling(index);
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
  #above(elapsedS: number, pressurePa: number | null): void {
    this.#brokenAtPa = null;
    this.#start.above(elapsedS, pressurePa);
    const topPa = pressurePa ?? this.#start.topPa;
    const fill = this.#fill.above(elapsedS, this.#latest, topPa, this.#before());
    const wasNearTop = this.#trace.pressurePa(this.#latest) >= NEAR_TOP * topPa;
    if (wasNearTop && this.#fill.isOutOfRange(elapsedS)) this.#roseOut = true;
    const { name, sinceS, recognisedBy } = this.#stage;
    if (name === 'waiting') {
      if (pressurePa === null) this.#atmosphere.cut();
      else this.#atmosphere.see(pressurePa);
    } else if (!this.#isFilled()) {
      if (fill) this.#enterFilled(fill);
    } else if (pressurePa === null) {
      this.#level.cut();
    } else if (recognisedBy === 'curve') {
      this.#level.see(pressurePa);
      const names = namesByLevel(this.#level.pa, this.#atmosphere.pa, elapsedS - sinceS);
      if (names) this.#spells.rename(names);
    }
  }

  /** A part full of air was opened to what is pumped: up at once, and down again. */
  #seeOpened(): void {
    const atS = this.#fill.takeFellBack();
    if (atS !== null && this.#stage.name === 'pull_down') this.#rigChanged = { atS, sure: true };
  }

  #endBlank(index: number, pressurePa: number): void {
    const fill = this.#fill.endBlank(pressurePa);
    if (this.#interrupted) this.#takeUpAgain(this.#interrupted, pressurePa);
    if (fill && this.#stage.name !== 'waiting' && !this.#isFilled()) this.#enterFilled(fill);
    this.#watchFrom(index);
  }

  #isFilled(): boolean {
    const { name } = this.#stage;
    return name === 'vented' || name === 'nitrogen_break';
  }

  #before() {
    const { name, sinceS } = this.#stage;
    return { heldSinceS: name === 'rise' ? sinceS : null, fallPerS: this.#fallPerS };
  }

  #enterFilled(fill: Fill): void {
    const spells = this.#spells.count;
    const [name, ...others] = filledNames(fill, this.#stage);
    this.#level.forget();
    this.#enter(name, fill.sinceS, 'curve', others);
    this.#interrupted = { spells, pressurePa: fill.lowestPa };
  }

  #takeUpAgain(before: { readonly spells: number; readonly pressurePa: number }, nowPa: number) {
    this.#interrupted = null;
    if (nowPa > before.pressurePa * SAME_PLACE) return;
    this.#spells.takeBackTo(before.spells);
  }

  #lookForFalling(index: number): void {
    const { name, sinceS } = this.#stage;
    const beganS = this.#start.look(index, name === 'waiting');
    // Of what was before the first reading nothing is known.
    if (beganS !== null) {
      this.#enter('pull_down', Math.max(beganS, sinceS, this.#firstS ?? 0), 'curve');
    }
  }

  #lookForTurn(index: number): void {
    const turn = this.#up.find(index, (bend) => this.#turnOf(bend, false)) ?? this.#slowTurn(index);
    if (turn) {
      this.#enter(turn.name, turn.atS, 'curve', turn.alternatives);
      return;
    }
    const begunS = this.#stage.sinceS + BEGINS_S;
    const change = this.#down.find(index, (bend) =>
      bend.atS < begunS ? null : rigChange(bend, this.#start.rangeEndPa),
    );
    if (change) this.#rigChanged = change;
  }

  #slowTurn(index: number) {
    const risen = this.#slow.look(index);
    const unseen = risen?.fromTheFirst ? this.#roseFromTheFirst() : null;
    return unseen ?? (risen?.bend ? this.#turnOf(risen.bend, true) : null);
  }

  /** A recording that began in a vacuum and has seen nothing but a rise: what was valved off, was so before. */
  #roseFromTheFirst() {
    const { sinceS, recognisedBy } = this.#stage;
    const firstS = this.#firstS ?? 0;
    const isFirst = this.#spells.count === 2 && recognisedBy === 'curve';
    if (!isFirst || this.#start.rangeEndPa < Infinity) return null;
    const first = this.#trace.firstAfter(firstS - 1e-3);
    const fell = this.#trace.log(first) - this.#trace.log(this.#trace.firstAfter(sinceS));
    const turn = valvedOffUnseen(this.#trace.pressurePa(first), fell, this.#depthPa);
    return turn && { ...turn, atS: firstS };
  }

  #turnOf(bend: Bend, gentle: boolean) {
    const turn = turnedUp(bend, {
      nowS: this.#nowS,
      bendPa: Math.exp(bend.log),
      depthPa: this.#depthPa,
      fallPerS: this.#fallPerS,
      gentle,
    });
    return turn && { ...turn, atS: bend.atS };
  }

  #lookForReopening(index: number): void {
    const beganS = this.#roseOut ? this.#start.fallenIntoRange(index) : null;
    if (beganS !== null) {
      this.#enter('pull_down', beganS, 'curve');
      return;
    }
    const closedAt = this.#trace.log(this.#trace.firstAfter(this.#stage.sinceS));
    const reopened = this.#down.find(index, (bend) =>
      isReopening(bend, this.#stage, bend.log - closedAt) ? bend : null,
    );
    if (reopened) this.#enter('pull_down', reopened.atS, 'curve');
  }

  #enter(
    name: StageName,
    sinceS: number,
    recognisedBy: Stage['recognisedBy'],
    alternatives: readonly StageName[] = [],
  ): void {
    // Filled anew, it begins its fall anew; a hold between changes nothing about the rig.
    if (name === 'nitrogen_break' || name === 'vented') this.#fallPerS = 0;
    const stage = { name, sinceS, recognisedBy, alternatives };
    this.#spells.begin(stage, Math.max(this.#nowS, sinceS));
    this.#interrupted = null;
    this.#brokenAtPa = null;
    this.#roseOut = false;
    this.#rigChanged = null;
    this.#start.begin();
    this.#watchFrom(Math.min(this.#trace.firstAfter(sinceS), this.#latest + 1));
  }

  #watchFrom(index: number): void {
    this.#up.begin(index);
    this.#down.begin(index);
    this.#slow.begin(index);
    this.#fill.begin(index);
  }
}
