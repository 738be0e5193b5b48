/** A recording whose alerts are heard: its book, and what writes in it. */
import type { ReadonlySignal } from '@preact/signals';
import type { Recording } from '../../protocol/recording.ts';
import type { AlertBook } from './alert-book.ts';
import type { LoggedAlert } from './alert-log.ts';

export interface HeardRecording {
  readonly recordingId: number;
  readonly book: AlertBook;
  /** As it is known now. */
  readonly recording: ReadonlySignal<Recording | null>;
  /** Whether this window calls out what comes of it. */
  readonly calls: ReadonlySignal<boolean>;
  readonly end: () => void;
}

/** An alert that stands to be seen. */
export interface OpenAlert {
  readonly of: HeardRecording;
  readonly alert: LoggedAlert;
}
