/** The chart library, set up for our picture: one curve, a pressure axis on either side, and time. */
import uPlot from 'uplot';
import { pressureTicks, timeTicks } from '../figure/chart-ticks.ts';
import type { TimeRange } from '../figure/time-range.ts';
import { sayBoilingTick, sayTimeTick } from '../words/say-chart.ts';
import { pressureDigits } from '../words/say-pressure.ts';
import type { ChartPicture } from './chart-picture.ts';
import { drawArrivals } from './draw-arrivals.ts';
import { drawBeside, labelCurves } from './draw-beside.ts';
import { drawExpected, labelExpected } from './draw-expected.ts';
import { drawBandAndLines, drawFlagsAndPresent, drawGround } from './draw-chart.ts';
import { figureFont, type Palette, remarkFont } from './palette.ts';

export interface PlotSetting {
  /** Asked anew at each drawing. */
  readonly picture: () => ChartPicture;
  readonly palette: () => Palette;
  readonly zoomTo: (range: TimeRange | null) => void;
}

/** Narrower than this the letters get smaller, CSS px. */
const NARROW = 560;
/** The scale's kind as a number: the library's names for it don't exist at run time. */
const LINEAR = 1;
const LOGARITHMIC = 3;

export function makePlot(host: HTMLElement, setting: PlotSetting): uPlot {
  const { picture, palette } = setting;
  const width = Math.max(260, host.clientWidth);
  const height = Math.max(220, host.clientHeight);
  const small = width < NARROW;
  const ticks = () =>
    pressureTicks(picture().range, picture().time.axis, picture().speech.units.pressure);
  const drawing = (plot: uPlot) => ({
    plot,
    ctx: plot.ctx,
    picture: picture(),
    palette: palette(),
    ratio: uPlot.pxRatio,
    small,
  });
  const labels = { font: figureFont(small ? 14 : 17), gap: 7 };
  return new uPlot(
    {
      width,
      height,
      padding: [14, 0, 0, 0],
      legend: { show: false },
      scales: {
        x: { time: false, range: () => [picture().time.fromS, picture().time.toS] },
        y: {
          distr: picture().time.axis === 'log' ? LOGARITHMIC : LINEAR,
          range: () => [picture().range.lowPa, picture().range.highPa],
        },
      },
      axes: [
        {
          ...labels,
          size: 36,
          stroke: () => palette().faint,
          splits: () => timeTicks(picture().time, picture().time.originS, small ? 4 : 6),
          values: (_, at) => at.map((elapsedS) => sayTimeTick(elapsedS - picture().time.originS)),
          grid: { show: false },
          ticks: { stroke: () => palette().rule, size: 6, width: 1 },
        },
        {
          ...labels,
          scale: 'y',
          size: small ? 58 : 74,
          stroke: () => palette().faint,
          splits: ticks,
          // The library would drop all but the decades.
          filter: (_, at) => at,
          values: (_, at) => at.map((pa) => pressureDigits(pa, picture().speech)),
          grid: { stroke: () => palette().rule, width: 1 },
          ticks: { show: false },
        },
        {
          ...labels,
          scale: 'y',
          side: 1,
          size: small ? 58 : 66,
          stroke: () => palette().water,
          splits: ticks,
          // The library would drop all but the decades.
          filter: (_, at) => at,
          values: (_, at) => at.map((pa) => sayBoilingTick(pa, picture().speech)),
          label: picture().speech.wording.chart.boilsAt,
          labelFont: remarkFont(small ? 14 : 18),
          labelSize: small ? 20 : 26,
          grid: { show: false },
          ticks: { stroke: () => palette().water, size: 7, width: 1 },
        },
      ],
      series: [
        {},
        {
          scale: 'y',
          stroke: () => palette().ink,
          width: 3.5,
          fill: () => palette().shoal,
          fillTo: () => picture().range.lowPa,
          points: { show: () => picture().points, size: 9, fill: () => palette().ink },
        },
      ],
      cursor: {
        y: false,
        points: { show: false },
        drag: { x: true, y: false, setScale: false },
        bind: { dblclick: () => () => (setting.zoomTo(null), null) },
      },
      hooks: {
        drawClear: [(plot) => drawGround(drawing(plot))],
        drawAxes: [
          (plot) => {
            drawExpected(drawing(plot));
            drawBeside(drawing(plot));
          },
        ],
        draw: [
          (plot) => {
            drawBandAndLines(drawing(plot));
            drawArrivals(drawing(plot));
            labelExpected(drawing(plot));
            drawFlagsAndPresent(drawing(plot));
            labelCurves(drawing(plot));
          },
        ],
        setSelect: [(plot) => zoomToSelection(plot, setting)],
      },
    },
    plotData(picture()),
    host,
  );
}

export function plotData(picture: ChartPicture): uPlot.AlignedData {
  const { elapsedS, pressurePa } = picture.series;
  // Without any reading the axes are drawn all the same.
  if (elapsedS.length === 0)
    return [
      [picture.time.fromS, picture.time.toS],
      [null, null],
    ];
  return [[...elapsedS], [...pressurePa]];
}

function zoomToSelection(plot: uPlot, setting: PlotSetting): void {
  const { left, width } = plot.select;
  if (width < 8) return;
  setting.zoomTo({ fromS: plot.posToVal(left, 'x'), toS: plot.posToVal(left + width, 'x') });
  plot.setSelect({ left: 0, top: 0, width: 0, height: 0 }, false);
}
