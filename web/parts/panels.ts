/** Which panel lies over the page, or none. */
import { signal } from '@preact/signals';
import type { CautionPlace } from '../words/say-caution.ts';

export type PanelName =
  | 'menu'
  | 'rehearse'
  | 'call'
  | 'reveal'
  | 'results'
  | 'recordings'
  | 'new-job'
  | 'sign'
  | 'read-in'
  | 'sheet'
  | 'prepared'
  | 'steps'
  | 'rig'
  | 'nitrogen'
  | 'cycles'
  | 'hunt'
  | 'volume'
  | 'pump-check'
  | 'second-screen'
  | 'settings'
  | 'alerts'
  | 'alert-reach'
  | 'sensors'
  | 'type-in'
  | 'note'
  | 'more'
  | { readonly work: CautionPlace };

export const panel = signal<PanelName | null>(null);
