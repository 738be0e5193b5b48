/**
 * Least squares with a parabola and one hinge, over all places of the hinge at once.
 *
 * What the parabola leaves, r, is orthogonal to it; so a hinge h gains (r·h)²/(h·h − Σ(qₖ·h)²), with
 * qₖ the parabola's orthonormal parts (Frisch, Waugh and Lovell's theorem), and all those sums are
 * sums from a place onward. Places in x, which runs from 0 to 1, must ascend.
 */

export interface HingeFit {
  /** Position of the hinge in the list of points. */
  readonly place: number;
  /** By how much it lowers the sum of squares. */
  readonly gain: number;
  /** Change of slope at it. */
  readonly size: number;
}

const PARTS = 3;

/** Workspaces of one size for all, so that looking allocates nothing. */
export class HingeFitter {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly #parts: readonly Float64Array[];
  readonly #left: Float64Array;
  readonly #hinge: Float64Array;
  readonly #shares = new Float64Array(PARTS);
  /** Sums over all later points: of 1, x, x², r, r·x, and of each part and part·x. */
  readonly #sums: readonly Float64Array[];
  #count = 0;
  #rest = 0;

  constructor(most: number) {
    const workspace = () => new Float64Array(most + 1);
    this.x = workspace();
    this.y = workspace();
    this.#left = workspace();
    this.#hinge = workspace();
    this.#parts = Array.from({ length: PARTS }, workspace);
    this.#sums = Array.from({ length: 5 + 2 * PARTS }, workspace);
  }

  /** Sum of squares that the parabola alone leaves. */
  get rest(): number {
    return this.#rest;
  }

  /** Of the first `count` places in `x` and `y`. */
  prepare(count: number): void {
    this.#count = count;
    this.#orthonormalise();
    this.#rest = 0;
    for (let i = 0; i < count; i += 1) {
      let left = this.y[i] ?? 0;
      for (let k = 0; k < PARTS; k += 1) {
        left -= (this.#shares[k] ?? 0) * (this.#parts[k]?.[i] ?? 0);
      }
      this.#left[i] = left;
      this.#rest += left * left;
    }
    this.#sumUp();
  }

  /** The place between two others at which a hinge that way gains most, or null where none does. */
  sharpest(first: number, last: number, sign: 1 | -1): HingeFit | null {
    let best: HingeFit | null = null;
    const [ones, xs, squares, lefts, leftXs] = this.#sums;
    for (let place = first; place <= last; place += 1) {
      const at = this.x[place] ?? 0;
      const n = ones?.[place] ?? 0;
      const x = xs?.[place] ?? 0;
      const gained = (leftXs?.[place] ?? 0) - at * (lefts?.[place] ?? 0);
      let length2 = (squares?.[place] ?? 0) - 2 * at * x + n * at * at;
      for (let k = 0; k < PARTS; k += 1) {
        const along =
          (this.#sums[6 + 2 * k]?.[place] ?? 0) - at * (this.#sums[5 + 2 * k]?.[place] ?? 0);
        length2 -= along * along;
      }
      best = better(best, { place, gained, length2 }, sign);
    }
    return best;
  }

  /** The same, at every other place, for a hinge that turns over this much of x to either side. */
  gentlest(first: number, last: number, sign: 1 | -1, halfWidth: number): HingeFit | null {
    let best: HingeFit | null = null;
    for (let place = first; place <= last; place += 2) {
      this.#bend(place, halfWidth);
      const gained = this.#along(this.#left);
      let length2 = this.#along(this.#hinge);
      for (const part of this.#parts) length2 -= this.#along(part) ** 2;
      best = better(best, { place, gained, length2 }, sign);
    }
    return best;
  }

  /** The fitted curve with a hinge at a place, in `into`. */
  curve({ place, size }: HingeFit, into: Float64Array): void {
    this.#bend(place, 0);
    const alongs = this.#parts.map((part) => this.#along(part));
    for (let i = 0; i < this.#count; i += 1) {
      let fitted = size * (this.#hinge[i] ?? 0);
      for (let k = 0; k < PARTS; k += 1) {
        const share = (this.#shares[k] ?? 0) - size * (alongs[k] ?? 0);
        fitted += share * (this.#parts[k]?.[i] ?? 0);
      }
      into[i] = fitted;
    }
  }

  #bend(place: number, halfWidth: number): void {
    const at = this.x[place] ?? 0;
    for (let i = 0; i < this.#count; i += 1) {
      const beyond = (this.x[i] ?? 0) - at;
      if (beyond >= halfWidth) this.#hinge[i] = beyond;
      else if (beyond <= -halfWidth) this.#hinge[i] = 0;
      else this.#hinge[i] = (beyond + halfWidth) ** 2 / (4 * halfWidth);
    }
  }

  #along(column: Float64Array): number {
    let sum = 0;
    for (let i = 0; i < this.#count; i += 1) sum += (this.#hinge[i] ?? 0) * (column[i] ?? 0);
    return sum;
  }

  /** 1, x, x² made orthonormal on the places that there are (Gram and Schmidt), and their shares in y. */
  #orthonormalise(): void {
    const count = this.#count;
    for (let power = 0; power < PARTS; power += 1) {
      const part = this.#parts[power];
      if (!part) continue;
      for (let i = 0; i < count; i += 1) part[i] = ((this.x[i] ?? 0) - 0.5) ** power;
      for (let k = 0; k < power; k += 1) {
        const earlier = this.#parts[k];
        if (earlier) subtract(part, earlier, count);
      }
      const length = Math.sqrt(dot(part, part, count));
      for (let i = 0; i < count; i += 1) part[i] = length > 1e-9 ? (part[i] ?? 0) / length : 0;
      this.#shares[power] = dot(part, this.y, count);
    }
  }

  #sumUp(): void {
    for (const sums of this.#sums) sums[this.#count - 1] = 0;
    for (let place = this.#count - 2; place >= 0; place -= 1) {
      const i = place + 1;
      const x = this.x[i] ?? 0;
      const left = this.#left[i] ?? 0;
      this.#carry(0, place, 1);
      this.#carry(1, place, x);
      this.#carry(2, place, x * x);
      this.#carry(3, place, left);
      this.#carry(4, place, left * x);
      for (let k = 0; k < PARTS; k += 1) {
        const part = this.#parts[k]?.[i] ?? 0;
        this.#carry(5 + 2 * k, place, part);
        this.#carry(6 + 2 * k, place, part * x);
      }
    }
  }

  #carry(which: number, place: number, value: number): void {
    const sums = this.#sums[which];
    if (sums) sums[place] = (sums[place + 1] ?? 0) + value;
  }
}

function better(
  best: HingeFit | null,
  { place, gained, length2 }: { place: number; gained: number; length2: number },
  sign: 1 | -1,
): HingeFit | null {
  if (sign * gained <= 0 || length2 < 1e-9) return best;
  const gain = (gained * gained) / length2;
  return best !== null && gain <= best.gain ? best : { place, gain, size: gained / length2 };
}

function dot(a: Float64Array, b: Float64Array, count: number): number {
  let sum = 0;
  for (let i = 0; i < count; i += 1) sum += (a[i] ?? 0) * (b[i] ?? 0);
  return sum;
}

function subtract(from: Float64Array, unit: Float64Array, count: number): void {
  const share = dot(from, unit, count);
  for (let i = 0; i < count; i += 1) from[i] = (from[i] ?? 0) - share * (unit[i] ?? 0);
}
