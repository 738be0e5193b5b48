/** The chart library by itself, given every point: the same size, a log axis, one filled curve. */
import uPlot from 'uplot';

interface Points {
  readonly elapsedS: number[];
  readonly pressurePa: number[];
}

/** The scale's kind as a number: the library's names for it don't exist at run time. */
const LOGARITHMIC = 3;

export class BarePlot {
  readonly #plot: uPlot;

  constructor(host: HTMLElement, { elapsedS, pressurePa }: Points) {
    this.#plot = new uPlot(
      {
        width: host.clientWidth,
        height: host.clientHeight,
        legend: { show: false },
        cursor: { show: false },
        scales: { x: { time: false }, y: { distr: LOGARITHMIC } },
        series: [{}, { scale: 'y', stroke: '#14233b', width: 3.5, fill: 'rgb(120 182 197 / 36%)' }],
      },
      [elapsedS, pressurePa],
      host,
    );
  }

  look(min: number, max: number): void {
    this.#plot.setScale('x', { min, max });
  }

  show({ elapsedS, pressurePa }: Points): void {
    this.#plot.setData([elapsedS, pressurePa]);
  }

  end(): void {
    this.#plot.destroy();
  }
}
