/** What can be taken from the chart: a picture of what is shown, and its readings as a table. */
import { useEffect, useRef, useState } from 'preact/hooks';
import { clockWords } from '../parts/clock-words.ts';
import { speech } from '../store/speech.ts';
import type { ChartDesk, ChartShown } from './chart-desk.ts';
import { countedFrom } from './counted-from.ts';
import { savePng, saveSvg } from './save-picture.ts';
import { tableRows } from './table-rows.ts';

interface ChartMenuProps {
  readonly desk: ChartDesk;
  readonly shown: ChartShown | null;
}

export function ChartMenu({ desk, shown }: ChartMenuProps) {
  const words = speech.value.wording.chart.tools;
  const details = useRef<HTMLDetailsElement>(null);
  const [isOpen, setIsOpen] = useState(false);
  const [hasFailed, setHasFailed] = useState(false);
  const close = () => {
    details.current?.removeAttribute('open');
    details.current?.querySelector('summary')?.focus();
  };
  useEffect(() => {
    const onPress = (event: PointerEvent) => {
      const { target } = event;
      const isInside = target instanceof Node && details.current?.contains(target) === true;
      if (!isInside) details.current?.removeAttribute('open');
    };
    document.addEventListener('pointerdown', onPress);
    return () => document.removeEventListener('pointerdown', onPress);
  }, []);
  const { picture } = desk;
  return (
    <details
      ref={details}
      class="chart-menu"
      data-testid="chart-menu"
      onToggle={(event) => setIsOpen(event.currentTarget.open)}
      onKeyDown={(event) => {
        if (event.key === 'Escape') close();
      }}
    >
      <summary>{words.take}</summary>
      {isOpen && picture !== null && (
        <div class="chart-taken">
          <h2>{words.saveAs}</h2>
          <p class="chart-saving">
            <button type="button" data-testid="save-svg" onClick={() => saveSvg(picture)}>
              {words.saveSvg}
            </button>
            <button
              type="button"
              data-testid="save-png"
              onClick={() => {
                setHasFailed(false);
                savePng(picture).catch(() => setHasFailed(true));
              }}
            >
              {words.savePng}
            </button>
          </p>
          {hasFailed && <p role="alert">{words.saveFailed}</p>}
          <h2>{words.table}</h2>
          <p>{shown?.sentence ?? ''}</p>
          <ReadingsTable desk={desk} />
        </div>
      )}
    </details>
  );
}

function ReadingsTable({ desk }: { readonly desk: ChartDesk }) {
  const { picture } = desk;
  if (picture === null) return null;
  const { startedAtMs, beside, time } = picture;
  const { cursor, table: words } = speech.value.wording.chart;
  return (
    <table data-testid="chart-table">
      <thead>
        <tr>
          <th scope="col">{cursor.counted[countedFrom(time, 0).event]}</th>
          {startedAtMs !== null && <th scope="col">{words.clock}</th>}
          <th scope="col">{beside.length === 0 ? words.pressure : picture.name}</th>
          {beside.map(({ name }) => (
            <th key={name} scope="col">
              {name}
            </th>
          ))}
          <th scope="col">{words.boils}</th>
        </tr>
      </thead>
      <tbody>
        {tableRows(picture).map((row) => (
          <tr key={row.atS}>
            <th scope="row">{row.time}</th>
            {startedAtMs !== null && (
              <td>{clockWords(startedAtMs + row.atS * 1000, speech.value, true)}</td>
            )}
            <td>{row.pressure}</td>
            {row.beside.map((value, at) => (
              <td key={at}>{value}</td>
            ))}
            <td>{row.boils}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
