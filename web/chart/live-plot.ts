/** Owns the plot on the page: drawn once a frame at most, made anew where its axis, size or look change. */
import type uPlot from 'uplot';
import type { ChartPicture } from './chart-picture.ts';
import { readPalette } from './palette.ts';
import type { Place, Size } from './place-box.ts';
import { makePlot, plotData } from './plot.ts';

export interface LivePlotSetting {
  /** Asked when a frame is due. */
  readonly picture: () => ChartPicture;
  /** Told after each drawing. */
  readonly drawn: (picture: ChartPicture) => void;
}

/** The plane between the axes, CSS px from the host's corner. */
export type Plane = Place & Size;

export class LivePlot {
  readonly #host: HTMLElement;
  readonly #setting: LivePlotSetting;
  readonly #resized: ResizeObserver;
  // Where the system's look is followed, it changes without anything new to draw.
  readonly #dark = window.matchMedia('(prefers-color-scheme: dark)');
  #plot: uPlot | null = null;
  #picture: ChartPicture | null = null;
  #axis = '';
  #look: string | undefined;
  #frame = 0;

  constructor(host: HTMLElement, setting: LivePlotSetting) {
    this.#host = host;
    this.#setting = setting;
    this.#resized = new ResizeObserver(this.#forget);
    this.#resized.observe(host);
    this.#dark.addEventListener('change', this.ask);
    // Letters are drawn into the canvas: again when their files have come.
    void document.fonts.ready.then(this.#forget);
  }

  readonly ask = (): void => {
    if (this.#frame === 0) this.#frame = requestAnimationFrame(this.#draw);
  };

  end(): void {
    cancelAnimationFrame(this.#frame);
    this.#resized.disconnect();
    this.#dark.removeEventListener('change', this.ask);
    this.#plot?.destroy();
    this.#plot = null;
  }

  /** What was drawn last; null before the first time. */
  get picture(): ChartPicture | null {
    return this.#picture;
  }

  get plane(): Plane | null {
    if (this.#plot === null) return null;
    const { offsetLeft: left, offsetTop: top, clientWidth, clientHeight } = this.#plot.over;
    return { left, top, width: clientWidth, height: clientHeight };
  }

  /** How far across the plane the pointer is: 0 left to 1 right, and beyond either. */
  shareAt(clientX: number): number {
    const box = this.#plot?.over.getBoundingClientRect();
    return box === undefined || box.width === 0 ? 0.5 : (clientX - box.left) / box.width;
  }

  /** Where a pressure stands, CSS px from the plane's top. */
  topOf(pressurePa: number): number {
    return this.#plot?.valToPos(pressurePa, 'y') ?? 0;
  }

  readonly #forget = (): void => {
    this.#plot?.destroy();
    this.#plot = null;
    this.ask();
  };

  readonly #draw = (): void => {
    this.#frame = 0;
    const picture = this.#setting.picture();
    this.#picture = picture;
    const { look } = document.documentElement.dataset;
    const isOther = picture.time.axis !== this.#axis || look !== this.#look;
    if (this.#plot === null || isOther) this.#remake(picture, look);
    else this.#plot.setData(plotData(picture));
  };

  #remake(picture: ChartPicture, look: string | undefined): void {
    this.#plot?.destroy();
    this.#axis = picture.time.axis;
    this.#look = look;
    this.#plot = makePlot(this.#host, {
      picture: () => this.#picture ?? picture,
      palette: once(() => readPalette(document.documentElement)),
      drawn: () => this.#setting.drawn(this.#picture ?? picture),
    });
  }
}

/** A look doesn't change while its plot lives: its colours are read once. */
function once<T>(read: () => T): () => T {
  let known: T | undefined;
  return () => (known ??= read());
}
