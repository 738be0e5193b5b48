/** The buttons under the chart: zoom, the way back, and what can be taken from it. */
import { CHART_TOOLS } from '../words/say-chart-tools.ts';
import type { ChartDesk, ChartShown } from './chart-desk.ts';
import { ChartMenu } from './chart-menu.tsx';

interface ChartToolsProps {
  readonly desk: ChartDesk;
  readonly shown: ChartShown | null;
}

export function ChartTools({ desk, shown }: ChartToolsProps) {
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
          {shown?.live === false ? CHART_TOOLS.backToEnd : CHART_TOOLS.backToNow}
        </button>
      ) : (
        view !== 'usual' && (
          <button
            type="button"
            data-testid="usual-view"
            aria-label={CHART_TOOLS.usualAloud}
            onClick={() => desk.showUsual()}
          >
            {CHART_TOOLS.usual}
          </button>
        )
      )}
      {view !== 'all' && (
        <button
          type="button"
          data-testid="zoom-all"
          aria-label={CHART_TOOLS.allAloud}
          onClick={() => desk.showAll()}
        >
          {CHART_TOOLS.all}
        </button>
      )}
      <button type="button" onClick={() => desk.zoom(0.5)} aria-label={CHART_TOOLS.zoomIn}>
        +
      </button>
      <button type="button" onClick={() => desk.zoom(2)} aria-label={CHART_TOOLS.zoomOut}>
        −
      </button>
    </div>
  );
}
