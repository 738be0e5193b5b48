/** The part of the chart's bench that runs in the browser: our chart, and the bare library beside it. */
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { chartOf } from '../../../web/chart/chart-of.ts';
import { LivePlot } from '../../../web/chart/live-plot.ts';
import { moved, type View, zoomed } from '../../../web/chart/view.ts';
import { english } from '../../../web/words/english.ts';
import { speechIn } from '../../../web/words/speech.ts';
import { FollowedRecording } from '../../../web/store/followed-recording.ts';
import { HERTZ, pullDownPa } from '../long-session.ts';
import { BarePlot } from './bare-plot.ts';
import { columnsBetween } from './columns.ts';
import { frames, nextFrame } from './frames.ts';

declare global {
  interface Window {
    chartBench?: typeof bench;
  }
}

/** As the stream sends what was missed. */
const CHUNK = 5000;
const MOVES = 40;

const place = document.getElementById('place');
if (place === null) throw new Error('the page has no place for a chart');
const room: HTMLElement = place;

let followed = new FollowedRecording(1);
let rows = 0;
let ours: LivePlot | null = null;
let view: View | null = null;
let bare: BarePlot | null = null;

const bench = {
  /** Inserts so many seconds more; ms that it took. */
  add(seconds: number): number {
    const endRow = rows + seconds * HERTZ;
    let tookMs = 0;
    while (rows < endRow) {
      const next = Math.min(rows + CHUNK, endRow);
      const columns = columnsBetween(rows, next);
      const beganMs = performance.now();
      followed.insert(columns);
      tookMs += performance.now() - beganMs;
      rows = next;
    }
    return tookMs;
  },

  /** From readings held to the picture, ms. */
  openOurs(): Promise<number> {
    this.clear();
    followed.judge();
    return timed('ours', () => {
      ours = new LivePlot(room, { picture: ourPicture, drawn: hasDrawn });
      ours.ask();
    });
  },

  openBare(): Promise<number> {
    this.clear();
    const columns = barePoints();
    return timed('bare', () => {
      bare = new BarePlot(room, columns, hasDrawn);
    });
  },

  /** Picture by picture to the right; how long each took, ms. */
  pan: (kind: Kind) => moving(kind, 0.4, (shown) => moveBy(shown, 0.01)),

  zoom: (kind: Kind) => moving(kind, 1, (shown) => zoomBy(shown, 0.93)),

  /** Ten readings a second for so many seconds; how long each frame took, ms. */
  async live(kind: Kind, seconds: number): Promise<number[]> {
    view = null;
    const points = kind === 'bare' ? barePoints() : null;
    const feeding = setInterval(() => {
      followed.insert(columnsBetween(rows, rows + 1));
      rows += 1;
      if (points === null) return ours?.ask();
      points.elapsedS.push(rows / HERTZ);
      points.pressurePa.push(pullDownPa(rows / HERTZ));
      return bare?.show(points);
    }, 1000 / HERTZ);
    const judging = setInterval(() => followed.judge(), 350);
    const took = await frames(seconds * 1000, () => undefined);
    clearInterval(feeding);
    clearInterval(judging);
    return took;
  },

  /** A recording anew, drawn and judged every so many seconds of data time. */
  async eightHours(hours: number, everyS: number): Promise<void> {
    for (let s = 0; s < hours * 3600; s += everyS) {
      this.add(everyS);
      followed.refreshReading();
      followed.judge();
      ours?.ask();
      await nextFrame();
    }
  },

  begin(): void {
    followed = new FollowedRecording(1);
    rows = 0;
    view = null;
  },

  /** Memory that the curve's pyramid says that it takes, bytes. */
  curveBytes: () => followed.curve.bytes,

  clear(): void {
    ours?.end();
    bare?.end();
    ours = null;
    bare = null;
    view = null;
  },
};

type Kind = 'ours' | 'bare';

function ourPicture() {
  return chartOf({
    curve: followed.curve,
    name: '',
    beside: () => [],
    marks: [],
    sheet: DEFAULT_SHEET,
    conclusions: followed.conclusions.peek(),
    speech: speechIn('en', english, { pressure: 'micron', temperature: '°C' }),
    recording: { id: 1, origin: 'sensor', startedAtMs: 0, takenFrom: null, sensors: [] },
    expected: null,
    behind: [],
    live: true,
    foresees: true,
    moments: [],
    view,
  });
}

interface Shown {
  readonly fromS: number;
  readonly toS: number;
}

/** Over a share of what there is; ms for each picture. */
async function moving(kind: Kind, share: number, change: (shown: Shown) => Shown) {
  const endS = rows / HERTZ;
  let shown: Shown = { fromS: 0, toS: endS * share };
  const took: number[] = [];
  for (let move = 0; move < MOVES; move += 1) {
    shown = change(shown);
    const next = shown;
    took.push(await timed(kind, () => show(kind, next)));
  }
  return took;
}

/** From the beginning of a frame until its picture is there to the last pixel. */
async function timed(kind: Kind, draw: () => void): Promise<number> {
  await nextFrame();
  const drawn = nextDrawing();
  let beganMs = 0;
  requestAnimationFrame(() => {
    beganMs = performance.now();
    if (kind === 'bare') draw();
  });
  // Ours draws in the same frame, after the clock has been looked at.
  if (kind === 'ours') draw();
  return (await drawn) - beganMs;
}

let tellDrawn: ((atMs: number) => void) | null = null;

function nextDrawing(): Promise<number> {
  return new Promise((resolve) => (tellDrawn = resolve));
}

/** Reading one pixel waits for all of them: without that only the orders to draw would be timed. */
function hasDrawn(): void {
  room.querySelector('canvas')?.getContext('2d')?.getImageData(0, 0, 1, 1);
  tellDrawn?.(performance.now());
  tellDrawn = null;
}

function show(kind: Kind, { fromS, toS }: Shown): void {
  if (kind === 'bare') return bare?.look(fromS, toS);
  view = { kind: 'stay', fromS, toS };
  return ours?.ask();
}

const everything = () => ({ fromS: 0, toS: rows / HERTZ, latestS: -1 });

function moveBy(shown: Shown, shift: number): Shown {
  return stretchOf(moved(shown, shift, everything()), shown);
}

function zoomBy(shown: Shown, factor: number): Shown {
  return stretchOf(zoomed(shown, factor, 0.7, everything()), shown);
}

function stretchOf(chosen: View, otherwise: Shown): Shown {
  return chosen.kind === 'stay' ? chosen : otherwise;
}

function barePoints() {
  const { readings } = followed;
  const all = Array.from({ length: readings.length }, (_, row) => row);
  return {
    elapsedS: all.map((row) => readings.elapsedS(row)),
    pressurePa: all.map((row) => readings.pressurePa(row)),
  };
}

window.chartBench = bench;
