/** What is known of a short stretch of a curve: of one reading, or of any number of them. */

/** What was seen in it, as bits. */
export const SEEN = {
  measured: 1,
  overRange: 2,
  underRange: 4,
  warmingUp: 8,
  /** A fault, or no number. */
  fault: 16,
  late: 32,
} as const;

/** Seen without anything that a line could go through. */
export const UNMEASURED = SEEN.overRange | SEEN.underRange | SEEN.fault;

/** Data times in s, pressures in Pa; NaN where nothing was measured. */
export class Slice {
  /** 0 while it is empty. */
  seen = 0;
  /** Whether something is missing before its first reading. */
  afterGap = false;
  /** Of its readings, measured or not. */
  firstS = Number.NaN;
  lastS = Number.NaN;
  entryS = Number.NaN;
  entryPa = Number.NaN;
  lowS = Number.NaN;
  lowPa = Number.NaN;
  highS = Number.NaN;
  highPa = Number.NaN;
  exitS = Number.NaN;
  exitPa = Number.NaN;

  clear(): void {
    this.seen = 0;
  }

  setReading(elapsedS: number, pressurePa: number, seen: number, afterGap: boolean): void {
    this.seen = seen;
    this.afterGap = afterGap;
    this.firstS = elapsedS;
    this.lastS = elapsedS;
    const isMeasured = (seen & SEEN.measured) !== 0;
    this.entryPa = isMeasured ? pressurePa : Number.NaN;
    this.lowPa = this.entryPa;
    this.highPa = this.entryPa;
    this.exitPa = this.entryPa;
    this.entryS = elapsedS;
    this.lowS = elapsedS;
    this.highS = elapsedS;
    this.exitS = elapsedS;
  }

  /** In any order of time: a reading from the sensor's store comes after later ones. */
  merge(other: Slice): void {
    if (other.seen === 0) return;
    if (this.seen === 0 || other.firstS < this.firstS) {
      this.firstS = other.firstS;
      this.afterGap = other.afterGap;
    }
    if (this.seen === 0 || other.lastS >= this.lastS) this.lastS = other.lastS;
    if ((other.seen & SEEN.measured) !== 0) this.#mergeMeasured(other);
    this.seen |= other.seen;
  }

  #mergeMeasured(other: Slice): void {
    const isFirst = (this.seen & SEEN.measured) === 0;
    if (isFirst || other.entryS < this.entryS) {
      this.entryS = other.entryS;
      this.entryPa = other.entryPa;
    }
    // Of equals the earlier, whatever came first.
    if (isFirst || isBefore(other.lowPa, other.lowS, this.lowPa, this.lowS)) {
      this.lowS = other.lowS;
      this.lowPa = other.lowPa;
    }
    if (isFirst || isBefore(-other.highPa, other.highS, -this.highPa, this.highS)) {
      this.highS = other.highS;
      this.highPa = other.highPa;
    }
    if (isFirst || other.exitS >= this.exitS) {
      this.exitS = other.exitS;
      this.exitPa = other.exitPa;
    }
  }
}

function isBefore(value: number, atS: number, other: number, otherS: number): boolean {
  return value < other || (value === other && atS < otherS);
}
