/** Which panel lies over the page, or none. */
import { signal } from '@preact/signals';
import type { Role } from '../../protocol/sharing.ts';
import { may } from '../store/this-screen.ts';
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

/** What a screen has to be allowed for something to be changed in a panel; for all that are not named, to assist. */
const CHANGED_BY: Readonly<Partial<Record<string, Role>>> = {
  menu: 'watch',
  settings: 'watch',
  'second-screen': 'watch',
  alerts: 'watch',
  'alert-reach': 'watch',
  results: 'watch',
  reveal: 'watch',
  // What changes something there asks for itself.
  recordings: 'watch',
  sensors: 'owner',
};
/** These are of no use to whoever may not change anything by them. */
const OFFERED_TO: Readonly<Partial<Record<PanelName & string, Role>>> = {
  rehearse: 'owner',
  sign: 'owner',
  'type-in': 'assist',
  'new-job': 'assist',
  prepared: 'assist',
};

export function mayChangeIn(name: PanelName | null): boolean {
  if (name === null) return true;
  return may(typeof name === 'string' ? (CHANGED_BY[name] ?? 'assist') : 'assist');
}

export function isPanelOffered(name: PanelName & string): boolean {
  return may(OFFERED_TO[name] ?? 'watch');
}

export const panel = signal<PanelName | null>(null);
