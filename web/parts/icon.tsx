/** A line icon of the open set (Lucide, ISC licence), in the colour of the text around it. */
import type { IconNode } from 'lucide';
import { h } from 'preact';

interface IconProps {
  readonly of: IconNode;
  /** Side length in CSS; that of a capital letter and a bit when left out. */
  readonly size?: string;
}

/** Says nothing by itself: the words stand beside it, or in the button's label. */
export function Icon({ of, size = '1.15em' }: IconProps) {
  return (
    <svg
      class="icon"
      viewBox="0 0 24 24"
      width={size}
      height={size}
      fill="none"
      stroke="currentColor"
      stroke-width="2.2"
      stroke-linecap="round"
      stroke-linejoin="round"
      aria-hidden="true"
    >
      {of.map(([tag, attributes], position) => h(tag, { ...attributes, key: position }))}
    </svg>
  );
}
