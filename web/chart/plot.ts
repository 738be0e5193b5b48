/** The chart library, set up for our picture: one curve, a pressure axis on either side, and time. */
import uPlot from 'uplot';
import { pressureTicks, timeTicks } from '../figure/chart-ticks.ts';
import { sayBoilingTick, sayTimeTick } from '../words/say-chart.ts';
import { pressureDigits } from '../words/say-pressure.ts';
import type { ChartPicture } from './chart-picture.ts';
import { drawArrivals } from './draw-arrivals.ts';
import { drawBehind, labelBehind } from './draw-behind.ts';
import { drawBeside, labelCurves } from './draw-beside.ts';
import { drawExpected, labelExpected } from './draw-expected.ts';
import { drawForeseen, drawGround, drawPresent } from './draw-chart.ts';
import { drawFlags, drawLineNames, drawLines } from './draw-lines.ts';
import { drawRemark } from './draw-remark.ts';
import { drawGaps, drawStretches } from './draw-stretches.ts';
import { figureFont, type Palette, remarkFont } from './palette.ts';

export interface PlotSetting {
  /** Asked anew at each drawing. */
  readonly picture: () => ChartPicture;
  readonly palette: () => Palette;
  /** Told after each drawing, when also the plane has its place: the library sets it late. */
  readonly drawn: () => void;
}

/** Narrower than this the letters get smaller, CSS px. */
const NARROW = 560;
/** Less has no room for the axes; chart.css gives it as much, or the rest would be hidden. CSS px. */
const LEAST_WIDTH = 260;
const LEAST_HEIGHT = 220;
/** The scale's kind as a number: the library's names for it don't exist at run time. */
const LINEAR = 1;
const LOGARITHMIC = 3;

export function makePlot(host: HTMLElement, setting: PlotSetting): uPlot {
  const { picture, palette } = setting;
  const width = Math.max(LEAST_WIDTH, host.clientWidth);
  const height = Math.max(LEAST_HEIGHT, host.clientHeight);
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
  const labels = { font: figureFont(17), gap: small ? 4 : 7 };
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
          size: small ? 70 : 76,
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
          size: small ? 60 : 66,
          stroke: () => palette().water,
          splits: ticks,
          // The library would drop all but the decades.
          filter: (_, at) => at,
          values: (_, at) => at.map((pa) => sayBoilingTick(pa, picture().speech)),
          label: picture().speech.wording.chart.boilsAt,
          labelFont: remarkFont(small ? 16 : 18),
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
      // Pointers are ours: the library knows no touch.
      cursor: { show: false },
      hooks: {
        drawClear: [(plot) => drawGround(drawing(plot))],
        drawAxes: [
          (plot) => {
            drawGaps(drawing(plot));
            drawBehind(drawing(plot));
            drawExpected(drawing(plot));
            drawBeside(drawing(plot));
          },
        ],
        draw: [
          (plot) => {
            drawForeseen(drawing(plot));
            drawLines(drawing(plot));
            drawArrivals(drawing(plot));
            labelBehind(drawing(plot));
            labelExpected(drawing(plot));
            drawStretches(drawing(plot));
            drawFlags(drawing(plot));
            drawLineNames(drawing(plot));
            drawRemark(drawing(plot));
            drawPresent(drawing(plot));
            labelCurves(drawing(plot));
            setting.drawn();
          },
        ],
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
