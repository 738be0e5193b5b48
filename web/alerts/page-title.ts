/** Says in the window's title and icon that something waits to be seen: a tab in the back says so too. */
import markAddress from '../parts/mark.svg';
import dotAddress from './mark-dot.svg';

export function showWaiting(page: Document, own: string, waiting: string | null): void {
  page.title = waiting === null ? own : `● ${waiting}`;
  const icon = page.querySelector('link[rel="icon"]');
  icon?.setAttribute('href', waiting === null ? markAddress : dotAddress);
}
