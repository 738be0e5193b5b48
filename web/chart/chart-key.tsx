/** The key under the chart. */
import { speech } from '../store/speech.ts';
import type { KeyItem } from './key-items.ts';
import { DASHES } from './draw-beside.ts';

export function ChartKey({ items }: { readonly items: readonly KeyItem[] }) {
  if (items.length === 0) return null;
  return (
    <ul class="chart-key" aria-label={speech.value.wording.chart.tools.key} data-testid="chart-key">
      {items.map((item) => (
        <li key={item.sign + item.label}>
          <svg viewBox="0 0 30 16" width="30" height="16" aria-hidden="true" data-sign={item.sign}>
            <Sign {...item} />
          </svg>
          {item.label}
        </li>
      ))}
    </ul>
  );
}

function Sign({ sign, line }: KeyItem) {
  switch (sign) {
    case 'measured':
      return <path d="M1 8H29" stroke="var(--ink)" stroke-width="3.5" />;
    case 'typed_in':
      return (
        <g>
          <path d="M1 8H29" stroke="var(--ink)" stroke-width="2" />
          <circle cx="15" cy="8" r="5" fill="var(--ink)" />
        </g>
      );
    case 'beside':
      return (
        <path
          d="M1 8H29"
          stroke="var(--kelp)"
          stroke-width="2"
          stroke-dasharray={(DASHES[line % DASHES.length] ?? []).join(' ')}
        />
      );
    case 'foreseen':
      return (
        <g>
          <rect y="1" width="30" height="14" fill="var(--water)" opacity="0.26" />
          <path d="M0 8H30" stroke="var(--water)" stroke-width="2" stroke-dasharray="8 6" />
        </g>
      );
    case 'arrival':
      return (
        <g stroke="var(--water)" fill="var(--sheet)">
          <path d="M3 8H27" stroke-width="4" />
          <path d="M3 2V14M27 2V14" stroke-width="2" />
          <circle cx="14" cy="8" r="4" stroke-width="2" />
        </g>
      );
    case 'gap':
      return (
        <path
          d="M3 15L13 1M11 15L21 1M19 15L29 1M1 1V15M29 1V15"
          stroke="var(--faint)"
          stroke-width="1.2"
        />
      );
    case 'over_range':
      return <path d="M2 13L7 4L12 13ZM18 13L23 4L28 13Z" fill="var(--ink)" />;
    case 'under_range':
      return <path d="M2 4L7 13L12 4ZM18 4L23 13L28 4Z" fill="var(--ink)" />;
    case 'fault':
      return (
        <path
          d="M4 4L11 12M4 12L11 4M19 4L26 12M19 12L26 4"
          stroke="var(--ink)"
          stroke-width="1.8"
        />
      );
    case 'warming_up':
      return (
        <path
          d="M1 8Q4 1 7 8T13 8T19 8T25 8T30 8"
          fill="none"
          stroke="var(--ink)"
          stroke-width="1.6"
        />
      );
    case 'late':
      return <path d="M1 6H29M1 11H29" stroke="var(--ink)" stroke-width="1.8" />;
  }
}
