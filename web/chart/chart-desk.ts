/** Where the chart's parts meet: what a person does, what is chosen to be seen, and what is shown of it. */
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
import { atBeginning, atPresent, moved, type View, viewOf, zoomed } from './view.ts';

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
  readonly #plot: LivePlot;
  readonly #show: (shown: ChartShown) => void;
  readonly #stopListening: () => void;
  #view: View | null = null;
  #askedS: number | null = null;
  #byKeys = false;
  #selected: Fingers | null = null;
  #shown = '';
  #sentence = '';
  #sentenceAtMs = Number.NEGATIVE_INFINITY;

  constructor(
    host: HTMLElement,
    picture: (view: View | null) => ChartPicture,
    show: (shown: ChartShown) => void,
  ) {
    this.#show = show;
    this.#plot = new LivePlot(host, {
      picture: () => picture(this.#view),
      drawn: (drawn) => this.#update(drawn),
    });
    this.#stopListening = listen(host, {
      shareAt: (clientX) => this.#plot.shareAt(clientX),
      shown: () => this.#plot.picture?.time ?? null,
      pointAt: (share) => this.#pointAt(share),
      select: (stretch) => this.#select(stretch),
      show: (range) => this.#change(({ bounds }) => viewOf(range, bounds)),
      zoom: (factor, around) => this.zoom(factor, around),
      move: (shift) => this.#change(({ time, bounds }) => moved(time, shift, bounds)),
      showUsual: () => this.showUsual(),
    });
  }

  ask(): void {
    this.#plot.ask();
  }

  end(): void {
    this.#stopListening();
    this.#plot.end();
  }

  /** What was drawn last; null before the first time. */
  get picture(): ChartPicture | null {
    return this.#plot.picture;
  }

  /** @param around the place that stays where it is, 0 left to 1 right; by itself the cursor's, or the present */
  zoom(factor: number, around = this.#middle()): void {
    this.#change(({ time, bounds }) => zoomed(time, factor, around, bounds));
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
        return this.#change(({ time, bounds }) => moved(time, key.by, bounds));
      case 'beginning':
        return this.#change(({ time, bounds }) => atBeginning(time, bounds));
      case 'present':
        return this.#change(({ time, bounds }) => atPresent(time, bounds));
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
    if (picture === null) return;
    const { time, bounds } = picture;
    const widthS = time.toS - time.fromS;
    const within = (atS: number, fromS: number, toS: number) => Math.min(Math.max(atS, fromS), toS);
    const fromS = this.#askedS ?? within(bounds.latestS, time.fromS, time.toS);
    const stepped = this.#askedS === null ? fromS : fromS + widthS * by;
    this.#askedS = within(stepped, bounds.fromS, bounds.toS);
    this.#byKeys = true;
    if (this.#askedS < time.fromS || this.#askedS > time.toS) {
      this.#change(() => moved(time, Math.sign(by) / 2, bounds));
    } else this.#update(picture);
  }

  #pointAt(share: number | null): void {
    const { picture } = this;
    if (picture === null) return;
    const { fromS, toS } = picture.time;
    const isInside = share !== null && share >= 0 && share <= 1;
    this.#askedS = isInside ? fromS + (toS - fromS) * share : null;
    this.#byKeys = false;
    this.#update(picture);
  }

  #select(stretch: Fingers | null): void {
    this.#selected = stretch;
    if (stretch !== null) this.#askedS = null;
    if (this.picture !== null) this.#update(this.picture);
  }

  /** The place that stays where it is when somebody zooms without pointing. */
  #middle(): number {
    const { picture } = this;
    if (picture === null) return 0.5;
    const { time, bounds } = picture;
    const atS = this.#askedS ?? bounds.latestS;
    const share = (atS - time.fromS) / (time.toS - time.fromS);
    return share >= 0 && share <= 1 ? share : 0.5;
  }

  #change(change: (picture: ChartPicture) => View | null): void {
    const { picture } = this;
    if (picture === null) return;
    this.#view = change(picture);
    this.#sentenceAtMs = Number.NEGATIVE_INFINITY;
    this.ask();
  }

  #update(picture: ChartPicture): void {
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
    if (nowMs - this.#sentenceAtMs >= SENTENCE_EVERY_MS) {
      this.#sentence = sentenceOf(picture);
      this.#sentenceAtMs = nowMs;
    }
    return this.#sentence;
  }

  #cursor(picture: ChartPicture): ShownCursor | null {
    const { plane } = this.#plot;
    if (this.#askedS === null || plane === null) return null;
    const { time, range, units, startedAtMs } = picture;
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
      words: sayCursor(facts, countedFrom(time, facts.atS), units),
      clock: startedAtMs === null ? '' : clockWords(startedAtMs + facts.atS * 1000, true),
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

function middle({ low, high }: { low: number; high: number }, axis: 'log' | 'linear'): number {
  return axis === 'log' ? Math.sqrt(low * high) : (low + high) / 2;
}
