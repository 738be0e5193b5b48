/** The job sheet that a panel shows and fills in: that of the job that is shown, or a prepared one. */
import type { ReadonlySignal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import type { Recording } from '../../protocol/recording.ts';
import type { Sheet, SheetEntry } from '../../protocol/sheet.ts';
import { panel, type SheetPanelName } from '../parts/panels.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { enterNow } from './enter-now.ts';

export interface OpenSheet {
  /** Changes with the sheet: what is half typed for one must not stand on another. */
  readonly key: string;
  readonly sheet: ReadonlySignal<Sheet>;
  /** @returns whether it is there; if not, that is said */
  readonly enter: (fields: SheetEntry['fields']) => Promise<boolean>;
  /** Another panel on the same sheet. */
  readonly show: (name: SheetPanelName) => void;
  /** Which sheet it is, where the page behind does not say so. */
  readonly above?: ComponentChildren;
}

export function sheetOfJob(followed: FollowedRecording, recording: Recording): OpenSheet {
  return {
    key: `${recording.id}`,
    sheet: followed.sheet,
    enter: (fields) => enterNow(followed, recording, fields),
    show: (name) => (panel.value = name),
  };
}
