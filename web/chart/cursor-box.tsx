/** The cursor over the chart: a line, the point on the curve, and what it shows there. */
import { useLayoutEffect, useRef } from 'preact/hooks';
import type { CursorWords } from '../words/say-cursor.ts';
import type { Plane } from './live-plot.ts';
import { placeBox } from './place-box.ts';

export interface ShownCursor {
  readonly plane: Plane;
  /** CSS px from the plane's left edge. */
  readonly across: number;
  /** CSS px from the plane's top; null where there is no point. */
  readonly down: number | null;
  readonly words: CursorWords;
  /** Time of day; empty where nobody knows it. */
  readonly clock: string;
}

export function CursorBox({ plane, across, down, words, clock }: ShownCursor) {
  const box = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    const shown = box.current;
    if (shown === null) return;
    const size = { width: shown.offsetWidth, height: shown.offsetHeight };
    const placed = placeBox({ left: across, top: down ?? plane.height }, size, plane);
    // Where there is no point nothing can be covered: it stands above, where a curve seldom is.
    const { left, top } = down === null ? { ...placed, top: plane.height * 0.1 } : placed;
    shown.style.left = `${plane.left + left}px`;
    shown.style.top = `${plane.top + top}px`;
  });
  const left = `${plane.left + across}px`;
  return (
    <div class="cursor" aria-hidden="true" data-testid="cursor">
      <div
        class="cursor-line"
        style={{ left, top: `${plane.top}px`, height: `${plane.height}px` }}
      />
      {down !== null && (
        <div
          class="cursor-point"
          data-testid="cursor-point"
          style={{ left, top: `${plane.top + down}px` }}
        />
      )}
      <div class="cursor-box" data-testid="cursor-box" ref={box}>
        <strong>{words.pressure}</strong>
        <span>{words.since}</span>
        {clock !== '' && <span>{clock}</span>}
        {words.boils !== '' && <i>{words.boils}</i>}
        {words.beside.map((line) => (
          <span key={line}>{line}</span>
        ))}
        {words.notes !== '' && <span class="quiet">{words.notes}</span>}
      </div>
    </div>
  );
}
