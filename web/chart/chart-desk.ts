/** Where the chart's parts meet: what a person does, what is chosen to be seen, and what is shown of it. */
import type { TimeRange } from '../figure/time-range.ts';
import { clockWords } from '../parts/clock-words.ts';
import { sayCursor, sayCursorAloud } from '../words/say-cursor.ts';
import { chartKey, type ChartKey } from './chart-keys.ts';
import type { ChartPicture } from './chart-picture.ts';
import { countedFrom } from './counted-from.ts';
import { cursorAt } from './cursor-at.ts';
import type { ShownCursor } from './cursor-box.tsx';
import { sentenceOf } from './figure-from.ts';
import { type KeyItem, keyItems } from './key-items.ts';
import { LivePlot } from './live-plot.ts';
import type { Fingers } from './pinched.ts';
import { listen } from './pointing.ts';
import {
  atBeginning,
  atPresent,
  type Bounds,
  moved,
  rangeOf,
  type View,
  viewOf,
  zoomed,
} from './view.ts';

/** What stands around the plot, anew whenever it is another. */
export interface ChartShown {
  readonly cursor: ShownCursor | null;
  /** Where a stretch is being selected, as CSS lengths. */
  readonly selection: Readonly<Record<'left' | 'top' | 'width' | 'height', string>> | null;
  /** What the cursor shows, for ears; empty unless it was moved by keys. */
  readonly said: string;
  readonly key: readonly KeyItem[];
  /** What the picture shows, in words. */
  readonly sentence: string;
  readonly view: View['kind'] | 'usual';
  /** Whether time goes on. */
  readonly live: boolean;
}

/** The sentence is put anew this often at most, ms: it is read on the way, and not while it changes. */
const SENTENCE_EVERY_MS = 2000;

export class ChartDesk {
  readonly #host: HTMLElement;
  readonly #plot: LivePlot;
  readonly #show: (shown: ChartShown) => void;
  readonly #stopListening: () => void;
  #view: View | null = null;
  #askedS: number | null = null;
  /** Where a mouse rests: time passes under it. */
  #hoveredAt: number | null = null;
  #byKeys = false;
  #selected: Fingers | null = null;
  #shown = '';
  #sentence = '';
  #sentenceAtMs = Number.NEGATIVE_INFINITY;
  #sentenceTimer: number | undefined;

  constructor(
    host: HTMLElement,
    picture: (view: View | null) => ChartPicture,
    show: (shown: ChartShown) => void,
  ) {
    this.#host = host;
    this.#show = show;
    this.#plot = new LivePlot(host, {
      picture: () => picture(this.#view),
      drawn: (drawn) => this.#update(drawn),
    });
    this.#stopListening = listen(host, {
      shareAt: (clientX) => this.#plot.shareAt(clientX),
      shown: () => this.#chosen(),
      pointAt: (share, rests) => this.#pointAt(share, rests),
      select: (stretch) => this.#select(stretch),
      show: (range) => this.#change((_, bounds) => viewOf(range, bounds)),
      zoom: (factor, around) => this.zoom(factor, around),
      move: (shift) => this.#change((shown, bounds) => moved(shown, shift, bounds)),
      showUsual: () => this.showUsual(),
    });
  }

  ask(): void {
    this.#plot.ask();
  }

  end(): void {
    window.clearTimeout(this.#sentenceTimer);
    this.#stopListening();
    this.#plot.end();
  }

  /** What was drawn last; null before the first time. */
  get picture(): ChartPicture | null {
    return this.#plot.picture;
  }

  /** @param around the place that stays where it is, 0 left to 1 right; by itself the cursor's, or the present */
  zoom(factor: number, around = this.#middle()): void {
    this.#change((shown, bounds) => zoomed(shown, factor, around, bounds));
  }

  showUsual(): void {
    this.#change(() => null);
  }

  showAll(): void {
    this.#change(() => ({ kind: 'all' }));
  }

  key(event: KeyboardEvent): void {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    const key = chartKey(event.key, event.shiftKey);
    if (key === null) return;
    event.preventDefault();
    this.#do(key);
  }

  /** A cursor that keys have moved goes with the focus. */
  leaveByKeys(): void {
    if (this.#byKeys) this.#pointAt(null);
  }

  #do(key: ChartKey): void {
    switch (key.kind) {
      case 'zoom':
        return this.zoom(key.factor);
      case 'step':
        return this.#step(key.by);
      case 'move':
        return this.#change((shown, bounds) => moved(shown, key.by, bounds));
      case 'beginning':
        return this.#change((shown, bounds) => atBeginning(shown, bounds));
      case 'present':
        return this.#change((shown, bounds) => atPresent(shown, bounds));
      case 'all':
        return this.showAll();
      case 'usual':
        this.#pointAt(null);
        return this.showUsual();
    }
  }

  /** From the present on, if nothing was looked at; what leaves the picture takes it along. */
  #step(by: number): void {
    const { picture } = this;
    const shown = this.#chosen();
    if (picture === null || shown === null) return;
    const { bounds } = picture;
    const widthS = shown.toS - shown.fromS;
    const within = (atS: number, fromS: number, toS: number) => Math.min(Math.max(atS, fromS), toS);
    const fromS = this.#askedS ?? within(bounds.latestS, shown.fromS, shown.toS);
    const stepped = this.#askedS === null ? fromS : fromS + widthS * by;
    this.#askedS = within(stepped, bounds.fromS, bounds.toS);
    this.#byKeys = true;
    this.#hoveredAt = null;
    if (this.#askedS < shown.fromS || this.#askedS > shown.toS) {
      this.#change(() => moved(shown, Math.sign(by) / 2, bounds));
    } else this.#update(picture);
  }

  #pointAt(share: number | null, rests = false): void {
    const { picture } = this;
    if (picture === null) return;
    const isInside = share !== null && share >= 0 && share <= 1;
    this.#askedS = isInside ? timeAt(picture, share) : null;
    this.#hoveredAt = isInside && rests ? share : null;
    this.#byKeys = false;
    this.#update(picture);
  }

  #select(stretch: Fingers | null): void {
    this.#selected = stretch;
    if (stretch !== null) {
      this.#askedS = null;
      this.#hoveredAt = null;
    }
    if (this.picture !== null) this.#update(this.picture);
  }

  /** The place that stays where it is when somebody zooms without pointing. */
  #middle(): number {
    const shown = this.#chosen();
    if (this.picture === null || shown === null) return 0.5;
    const atS = this.#askedS ?? this.picture.bounds.latestS;
    const share = (atS - shown.fromS) / (shown.toS - shown.fromS);
    return share >= 0 && share <= 1 ? share : 0.5;
  }

  /** The stretch that is chosen now: several may be chosen before the next is drawn. */
  #chosen(): TimeRange | null {
    const { picture } = this;
    return picture === null ? null : rangeOf(this.#view, picture.usual, picture.bounds);
  }

  #change(change: (shown: TimeRange, bounds: Bounds) => View | null): void {
    const shown = this.#chosen();
    if (this.picture === null || shown === null) return;
    this.#view = change(shown, this.picture.bounds);
    this.#sentenceAtMs = Number.NEGATIVE_INFINITY;
    this.ask();
  }

  #update(picture: ChartPicture): void {
    // For tests and support, as the page's state; nothing reads them here.
    this.#host.dataset['fromS'] = String(picture.time.fromS);
    this.#host.dataset['toS'] = String(picture.time.toS);
    this.#host.dataset['latestS'] = String(picture.bounds.latestS);
    this.#host.dataset['points'] = String(picture.series.elapsedS.length);
    if (this.#hoveredAt !== null) this.#askedS = timeAt(picture, this.#hoveredAt);
    const cursor = this.#cursor(picture);
    const shown: ChartShown = {
      cursor,
      selection: this.#selection(),
      said: this.#byKeys && cursor !== null ? sayCursorAloud(cursor.words, cursor.clock) : '',
      key: keyItems(picture),
      sentence: this.#say(picture),
      view: this.#view?.kind ?? 'usual',
      live: picture.live,
    };
    // Most frames change the curve alone: nothing around it is to be made anew for that.
    const text = JSON.stringify(shown);
    if (text === this.#shown) return;
    this.#shown = text;
    this.#show(shown);
  }

  #say(picture: ChartPicture): string {
    const nowMs = performance.now();
    const dueMs = this.#sentenceAtMs + SENTENCE_EVERY_MS - nowMs;
    if (dueMs <= 0) {
      this.#sentence = sentenceOf(picture);
      this.#sentenceAtMs = nowMs;
    } else {
      // What was drawn last is said also where nothing is drawn after it.
      this.#sentenceTimer ??= window.setTimeout(() => {
        this.#sentenceTimer = undefined;
        if (this.picture !== null) this.#update(this.picture);
      }, dueMs);
    }
    return this.#sentence;
  }

  #cursor(picture: ChartPicture): ShownCursor | null {
    const { plane } = this.#plot;
    if (this.#askedS === null || plane === null) return null;
    const { time, range, speech, startedAtMs } = picture;
    const pixelS = (time.toS - time.fromS) / plane.width;
    const facts = cursorAt(picture, this.#askedS, pixelS);
    const { pressurePa } = facts.watched;
    // Of several readings in a pixel the curve's stroke is their whole range: its middle is on it.
    const pointPa =
      facts.foreseen?.midPa ?? (pressurePa === null ? null : middle(pressurePa, time.axis));
    const isShown = pointPa !== null && pointPa >= range.lowPa && pointPa <= range.highPa;
    return {
      plane,
      across: (facts.atS - time.fromS) / pixelS,
      down: isShown ? this.#plot.topOf(pointPa) : null,
      words: sayCursor(facts, countedFrom(time, facts.atS), speech),
      clock: startedAtMs === null ? '' : clockWords(startedAtMs + facts.atS * 1000, speech, true),
    };
  }

  #selection(): ChartShown['selection'] {
    const { plane } = this.#plot;
    if (plane === null || this.#selected === null) return null;
    const [from, to] = this.#selected;
    return {
      left: `${plane.left + plane.width * from}px`,
      top: `${plane.top}px`,
      width: `${plane.width * (to - from)}px`,
      height: `${plane.height}px`,
    };
  }
}

function timeAt({ time: { fromS, toS } }: ChartPicture, share: number): number {
  return fromS + (toS - fromS) * share;
}

function middle({ low, high }: { low: number; high: number }, axis: 'log' | 'linear'): number {
  return axis === 'log' ? Math.sqrt(low * high) : (low + high) / 2;
}
