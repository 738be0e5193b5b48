/** The chart on the page: the plot, its cursor, its key, and the tools under it. */
import type { ComponentChildren } from 'preact';
import { useEffect, useId, useRef, useState } from 'preact/hooks';
import 'uplot/dist/uPlot.min.css';
import { choices } from '../store/choices.ts';
import { speech } from '../store/speech.ts';
import { ChartDesk, type ChartShown } from './chart-desk.ts';
import { ChartKey } from './chart-key.tsx';
import type { ChartPicture } from './chart-picture.ts';
import { ChartTools } from './chart-tools.tsx';
import { CursorBox } from './cursor-box.tsx';
import type { View } from './view.ts';

interface ChartProps {
  /** What to draw of what a person chose to see (null: the usual stretch); asked when a frame is due. */
  readonly picture: (view: View | null) => ChartPicture;
  /** Always as many; when one of them changes there may be something new to draw. */
  readonly changes: readonly unknown[];
  /** What it shows, in a sentence. */
  readonly description: string;
  /** Stands under the chart, beside its tools. */
  readonly children?: ComponentChildren;
}

export function Chart({ picture, changes, description, children }: ChartProps) {
  const host = useRef<HTMLDivElement>(null);
  const latest = useRef(picture);
  latest.current = picture;
  const [desk, setDesk] = useState<ChartDesk | null>(null);
  const [shown, setShown] = useState<ChartShown | null>(null);
  const [sentence, help] = [useId(), useId()];
  const { look } = choices.value;
  const words = speech.value.wording.chart.tools;

  useEffect(() => {
    if (host.current === null) return undefined;
    const made = new ChartDesk(host.current, (view) => latest.current(view), setShown);
    setDesk(made);
    return () => made.end();
  }, []);
  useEffect(() => desk?.ask(), [desk, ...changes, look]);

  const cursor = shown?.cursor ?? null;
  const selection = shown?.selection ?? null;
  return (
    <div class="chart">
      <div class="chart-room">
        <div
          ref={host}
          class="chart-host"
          data-testid="chart"
          role="application"
          aria-roledescription={words.kind}
          tabIndex={0}
          aria-label={description}
          aria-describedby={`${sentence} ${help}`}
          data-view={shown?.view ?? 'usual'}
          onKeyDown={(event) => desk?.key(event)}
          onBlur={() => desk?.leaveByKeys()}
        />
        <div class="chart-over">
          {selection !== null && <div class="chart-selection" style={selection} />}
          {cursor !== null && <CursorBox {...cursor} />}
        </div>
        <p class="unseen" id={sentence} data-testid="chart-sentence">
          {shown?.sentence ?? ''}
        </p>
        <p class="unseen" id={help}>
          {words.help}
        </p>
        <p class="unseen" role="status" data-testid="cursor-said">
          {shown?.said ?? ''}
        </p>
      </div>
      <div class="under-chart">
        <ChartKey items={shown?.key ?? []} />
        {desk !== null && <ChartTools desk={desk} shown={shown} />}
        {children}
      </div>
    </div>
  );
}
