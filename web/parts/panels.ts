/** Which panel lies over the page, or none. */
import { signal } from '@preact/signals';
import type { CautionPlace } from '../words/say-caution.ts';

/** What goes onto a job sheet, and may be prepared as well. */
export type SheetPanelName = 'sheet' | 'rig' | 'volume' | 'nitrogen' | 'cycles';

export type PlainPanelName =
  | SheetPanelName
  | 'menu'
  | 'rehearse'
  | 'call'
  | 'reveal'
  | 'results'
  | 'recordings'
  | 'new-job'
  | 'sign'
  | 'read-in'
  | 'prepared'
  | 'steps'
  | 'hunt'
  | 'pump-check'
  | 'second-screen'
  | 'settings'
  | 'alerts'
  | 'alert-reach'
  | 'sensors'
  | 'type-in'
  | 'note'
  | 'more';

type PanelName =
  | PlainPanelName
  | { readonly work: CautionPlace }
  /** On the prepared sheet that is at hand. */
  | { readonly prepared: SheetPanelName };

export const panel = signal<PanelName | null>(null);
