/** The chart on the page: redrawn once a frame at most, zoomed by drag, wheel and keys. */
import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type uPlot from 'uplot';
import 'uplot/dist/uPlot.min.css';
import type { TimeRange } from '../figure/time-range.ts';
import { choices } from '../store/choices.ts';
import { speech } from '../store/speech.ts';
import type { ChartPicture } from './chart-picture.ts';
import { readPalette } from './palette.ts';
import { makePlot, plotData } from './plot.ts';
import { stretch } from './stretch.ts';

interface ChartProps {
  /** What to draw; asked when a frame is due. */
  readonly picture: () => ChartPicture;
  /** Always as many; when one of them changes there may be something new to draw. */
  readonly changes: readonly unknown[];
  readonly zoomed: boolean;
  readonly zoomTo: (range: TimeRange | null) => void;
  readonly description: string;
  /** Stands under the chart, beside its tools. */
  readonly children?: ComponentChildren;
}

export function Chart({ picture, changes, zoomed, zoomTo, description, children }: ChartProps) {
  const host = useRef<HTMLDivElement>(null);
  const latest = useRef({ picture, zoomTo });
  latest.current = { picture, zoomTo };
  const ask = useRef(() => {});
  const { look } = choices.value;
  const words = speech.value.wording.chart;

  useEffect(() => {
    if (host.current === null) return undefined;
    const chart = animate(host.current, () => latest.current);
    ask.current = chart.ask;
    return chart.end;
  }, []);
  useEffect(() => ask.current(), [...changes, look]);

  const change = (factor: number, shift: number) => {
    const { fromS, toS } = latest.current.picture().time;
    zoomTo(stretch({ fromS, toS }, factor, shift, 0.5));
  };
  const onKeyDown = (event: KeyboardEvent) => {
    const action = {
      '+': () => change(0.5, 0),
      '-': () => change(2, 0),
      ArrowLeft: () => change(1, -0.2),
      ArrowRight: () => change(1, 0.2),
      '0': () => zoomTo(null),
    }[event.key];
    if (action === undefined) return;
    event.preventDefault();
    action();
  };
  return (
    <div class="chart">
      <div class="chart-room">
        <div
          ref={host}
          class="chart-host"
          data-testid="chart"
          role="img"
          tabIndex={0}
          aria-label={words.keys({ description })}
          onKeyDown={onKeyDown}
        />
      </div>
      <div class="under-chart">
        {children}
        <span class="zoom-tools">
          <button type="button" onClick={() => change(0.5, 0)} aria-label={words.zoomIn}>
            +
          </button>
          <button type="button" onClick={() => change(2, 0)} aria-label={words.zoomOut}>
            −
          </button>
          {zoomed && (
            <button type="button" data-testid="zoom-all" onClick={() => zoomTo(null)}>
              {words.showAll}
            </button>
          )}
        </span>
      </div>
    </div>
  );
}

type Latest = Pick<ChartProps, 'picture' | 'zoomTo'>;

/** Owns the plot: made anew when its axis changes its kind or the window its size. */
function animate(host: HTMLElement, latest: () => Latest): { ask: () => void; end: () => void } {
  let plot: uPlot | null = null;
  let axis = '';
  let frame = 0;
  let now = latest().picture();
  const remake = () => {
    plot?.destroy();
    axis = now.time.axis;
    const palette = () => readPalette(document.documentElement);
    plot = makePlot(host, {
      picture: () => now,
      palette: once(palette),
      zoomTo: (range) => latest().zoomTo(range),
    });
  };
  const draw = () => {
    frame = 0;
    now = latest().picture();
    if (
      plot === null ||
      now.time.axis !== axis ||
      look !== document.documentElement.dataset['look']
    ) {
      look = document.documentElement.dataset['look'];
      remake();
    } else plot.setData(plotData(now));
  };
  let look: string | undefined;
  const ask = () => {
    if (frame === 0) frame = requestAnimationFrame(draw);
  };
  const resized = new ResizeObserver(() => {
    plot?.destroy();
    plot = null;
    ask();
  });
  resized.observe(host);
  const onWheel = (event: WheelEvent) => {
    event.preventDefault();
    const box = plot?.over.getBoundingClientRect();
    if (box === undefined) return;
    const around = Math.min(1, Math.max(0, (event.clientX - box.left) / box.width));
    const { fromS, toS } = now.time;
    latest().zoomTo(stretch({ fromS, toS }, event.deltaY > 0 ? 1.25 : 0.8, 0, around));
  };
  host.addEventListener('wheel', onWheel, { passive: false });
  // Where the system's look is followed, it changes without anything new to draw.
  const dark = window.matchMedia('(prefers-color-scheme: dark)');
  dark.addEventListener('change', ask);
  // Letters are drawn into the canvas: again when their files have come.
  void document.fonts.ready.then(() => {
    plot?.destroy();
    plot = null;
    ask();
  });
  return {
    ask,
    end: () => {
      cancelAnimationFrame(frame);
      resized.disconnect();
      host.removeEventListener('wheel', onWheel);
      dark.removeEventListener('change', ask);
      plot?.destroy();
    },
  };
}

/** A look doesn't change while its plot lives: its colours are read once. */
function once<T>(read: () => T): () => T {
  let known: T | undefined;
  return () => (known ??= read());
}
