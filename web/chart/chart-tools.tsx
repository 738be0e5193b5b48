/** The buttons under the chart: zoom, the way back, and what can be taken from it. */
import { speech } from '../store/speech.ts';
import type { ChartDesk, ChartShown } from './chart-desk.ts';
import { ChartMenu } from './chart-menu.tsx';

interface ChartToolsProps {
  readonly desk: ChartDesk;
  readonly shown: ChartShown | null;
}

export function ChartTools({ desk, shown }: ChartToolsProps) {
  const words = speech.value.wording.chart.tools;
  const view = shown?.view ?? 'usual';
  return (
    <div class="chart-tools">
      <ChartMenu desk={desk} shown={shown} />
      {view === 'stay' ? (
        <button
          type="button"
          class="urgent"
          data-testid="back-to-now"
          onClick={() => desk.showUsual()}
        >
          {shown?.live === false ? words.backToEnd : words.backToNow}
        </button>
      ) : (
        view !== 'usual' && (
          <button
            type="button"
            data-testid="usual-view"
            aria-label={words.usualAloud}
            onClick={() => desk.showUsual()}
          >
            {words.usual}
          </button>
        )
      )}
      {view !== 'all' && (
        <button
          type="button"
          data-testid="zoom-all"
          aria-label={words.allAloud}
          onClick={() => desk.showAll()}
        >
          {words.all}
        </button>
      )}
      <button type="button" onClick={() => desk.zoom(0.5)} aria-label={words.zoomIn}>
        +
      </button>
      <button type="button" onClick={() => desk.zoom(2)} aria-label={words.zoomOut}>
        −
      </button>
    </div>
  );
}
