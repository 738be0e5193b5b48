/** Wheel, mouse and fingers on the chart, told as what they mean. */
import type { TimeRange } from '../figure/time-range.ts';
import { type Fingers, pinched } from './pinched.ts';

/** Places across the picture are shares of it: 0 left to 1 right. */
export interface Pointing {
  readonly shareAt: (clientX: number) => number;
  /** What is shown now. */
  readonly shown: () => TimeRange | null;
  /**
   * Shows the values at a place; null: no longer.
   * @param rests a pointer stays there, whatever moves under it; else it is the moment that was meant
   */
  readonly pointAt: (share: number | null, rests?: boolean) => void;
  /** Marks a stretch that is being selected; null: none. */
  readonly select: (stretch: Fingers | null) => void;
  readonly show: (range: TimeRange) => void;
  /** @param factor below 1 zooms in */
  readonly zoom: (factor: number, around: number) => void;
  readonly move: (shift: number) => void;
  readonly showUsual: () => void;
}

/** Moved by less, a finger has tapped and a mouse has clicked, CSS px. */
const STILL_PX = 8;
/** A notch of a wheel, 100 px on most, zooms by a fifth. A setting of ours. */
const ZOOM_PER_PX = Math.log(1.22) / 100;
const MOST_WHEEL_PX = 200;
const LINE_PX = 16;

/** @returns what ends it */
export function listen(host: HTMLElement, pointing: Pointing): () => void {
  const ear = new Ear(pointing);
  const ending = new AbortController();
  const { signal } = ending;
  host.addEventListener('wheel', (event) => ear.wheel(event), { passive: false, signal });
  host.addEventListener('pointerdown', (event) => ear.down(event, host), { signal });
  host.addEventListener('pointermove', (event) => ear.move(event), { signal });
  host.addEventListener('pointerup', (event) => ear.up(event), { signal });
  host.addEventListener('pointercancel', (event) => ear.cancel(event), { signal });
  host.addEventListener('pointerleave', (event) => ear.leave(event), { signal });
  // A cursor that a finger has left goes with the next press elsewhere.
  document.addEventListener('pointerdown', (event) => ear.pressed(event, host), { signal });
  host.addEventListener('dblclick', () => pointing.showUsual(), { signal });
  return () => ending.abort();
}

interface Finger {
  readonly beganX: number;
  x: number;
}

class Ear {
  readonly #pointing: Pointing;
  readonly #fingers = new Map<number, Finger>();
  /** What was shown, and where the fingers were, when this gesture began. */
  #began: { readonly range: TimeRange; readonly xs: readonly number[] } | null = null;
  #hasMoved = false;
  #selectingFromX: number | null = null;

  constructor(pointing: Pointing) {
    this.#pointing = pointing;
  }

  wheel(event: WheelEvent): void {
    event.preventDefault();
    const unit = event.deltaMode === WheelEvent.DOM_DELTA_PIXEL ? 1 : LINE_PX;
    const limit = (px: number) => Math.max(-MOST_WHEEL_PX, Math.min(MOST_WHEEL_PX, px * unit));
    const [across, along] = [limit(event.deltaX), limit(event.deltaY)];
    if (event.shiftKey || Math.abs(across) > Math.abs(along)) {
      this.#pointing.move((across === 0 ? along : across) / 1000);
    } else {
      const around = Math.min(1, Math.max(0, this.#pointing.shareAt(event.clientX)));
      this.#pointing.zoom(Math.exp(along * ZOOM_PER_PX), around);
    }
  }

  down(event: PointerEvent, host: HTMLElement): void {
    if (event.button !== 0) return;
    // A pointer that was let go meanwhile can't be held.
    if (event.isTrusted) host.setPointerCapture(event.pointerId);
    if (event.pointerType === 'touch') {
      this.#fingers.set(event.pointerId, { beganX: event.clientX, x: event.clientX });
      if (this.#fingers.size === 1) this.#hasMoved = false;
      this.#begin();
    } else this.#selectingFromX = event.clientX;
  }

  pressed({ target }: PointerEvent, host: HTMLElement): void {
    if (target instanceof Node && !host.contains(target)) this.#pointing.pointAt(null);
  }

  move(event: PointerEvent): void {
    const finger = this.#fingers.get(event.pointerId);
    if (finger !== undefined) {
      finger.x = event.clientX;
      this.#follow();
    } else if (this.#selectingFromX !== null) {
      const isWide = Math.abs(event.clientX - this.#selectingFromX) >= STILL_PX;
      this.#pointing.select(isWide ? this.#selected(event.clientX) : null);
    } else if (event.pointerType !== 'touch') {
      this.#pointing.pointAt(this.#pointing.shareAt(event.clientX), true);
    }
  }

  up(event: PointerEvent): void {
    const share = this.#pointing.shareAt(event.clientX);
    if (this.#fingers.delete(event.pointerId)) {
      if (!this.#hasMoved && this.#fingers.size === 0) this.#pointing.pointAt(share);
      this.#begin();
    } else if (this.#selectingFromX !== null) {
      const isWide = Math.abs(event.clientX - this.#selectingFromX) >= STILL_PX;
      const shown = this.#pointing.shown();
      if (isWide && shown !== null) {
        this.#pointing.show(part(shown, this.#selected(event.clientX)));
      }
      this.#selectingFromX = null;
      this.#pointing.select(null);
      this.#pointing.pointAt(share, true);
    }
  }

  /** The browser scrolls the page instead. */
  cancel(event: PointerEvent): void {
    this.#fingers.delete(event.pointerId);
    this.#selectingFromX = null;
    this.#pointing.select(null);
    this.#begin();
  }

  leave(event: PointerEvent): void {
    if (event.pointerType !== 'touch' && this.#selectingFromX === null) {
      this.#pointing.pointAt(null);
    }
  }

  #begin(): void {
    const range = this.#pointing.shown();
    const xs = [...this.#fingers.values()].map(({ x }) => x);
    this.#began = range === null || xs.length === 0 ? null : { range, xs };
  }

  #follow(): void {
    const fingers = [...this.#fingers.values()];
    this.#hasMoved ||= fingers.some(({ beganX, x }) => Math.abs(x - beganX) >= STILL_PX);
    if (this.#began === null || !this.#hasMoved) return;
    this.#pointing.pointAt(null);
    const { range, xs } = this.#began;
    const now = fingers.map(({ x }) => x);
    this.#pointing.show(pinched(range, this.#pair(xs), this.#pair(now)));
  }

  /** One finger is two that keep their distance. */
  #pair(xs: readonly number[]): Fingers {
    const first = this.#pointing.shareAt(xs[0] ?? 0);
    const second = xs[1];
    return [first, second === undefined ? first + 1 : this.#pointing.shareAt(second)];
  }

  #selected(clientX: number): Fingers {
    const ends = [this.#selectingFromX ?? clientX, clientX].map((x) => this.#pointing.shareAt(x));
    const within = (share: number) => Math.min(1, Math.max(0, share));
    return [within(Math.min(...ends)), within(Math.max(...ends))];
  }
}

function part({ fromS, toS }: TimeRange, [from, to]: Fingers): TimeRange {
  const widthS = toS - fromS;
  return { fromS: fromS + widthS * from, toS: fromS + widthS * to };
}
