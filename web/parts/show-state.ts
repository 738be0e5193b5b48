/**
 * The page's state for browser tests and for support: as data attributes of the page, and read-only
 * as `window.ebbline`. Nothing on the page uses either.
 */
import type { Reading } from '../../protocol/reading.ts';
import type { Conclusions } from '../analysis/conclusions.ts';
import type { AlertDesk } from '../alerts/alert-desk.ts';
import { freshness } from '../store/freshness.ts';
import type { Session } from '../store/session.ts';
import { type DrawnSeries, NOTHING_DRAWN } from '../store/drawn-curve.ts';

declare global {
  interface Window {
    /** Read-only: every reading that the page holds, what is drawn, and what follows from them. */
    ebbline?: {
      readonly readings: () => readonly Reading[];
      /** The same as the chart draws them, over their whole length; a gap is a null. */
      readonly drawn: () => DrawnSeries;
      readonly conclusions: () => Conclusions | null;
      /** Of each recording whose alerts are heard, by its number. */
      readonly heard: () => Readonly<Record<number, Conclusions | null>>;
    };
  }
}

export function showState(session: Session, alerts: AlertDesk, root: HTMLElement): void {
  const followed = session.followed.value;
  const conclusions = followed?.conclusions.value ?? null;
  const state = freshness(
    session.connection.value,
    session.recording.value,
    session.source.value,
    session.record.value,
  );
  root.dataset['connection'] = session.connection.value.phase;
  root.dataset['freshness'] = state.kind;
  root.dataset['recording'] = String(followed?.id ?? '');
  root.dataset['stage'] = conclusions?.stage.name ?? '';
  root.dataset['outcome'] = conclusions?.forecast?.outcome ?? '';
  root.dataset['verdict'] = conclusions?.rise?.verdict ?? '';
  window.ebbline ??= {
    readings: () => {
      const readings = session.followed.peek()?.readings;
      if (readings === undefined) return [];
      return Array.from({ length: readings.length }, (_, row) => readings.reading(row));
    },
    drawn: () => {
      const curve = session.followed.peek()?.curve;
      if (curve === undefined || curve.readings.length === 0) return NOTHING_DRAWN;
      const { readings } = curve;
      return curve.drawn({
        fromS: readings.elapsedS(0),
        toS: readings.elapsedS(readings.length - 1),
      });
    },
    conclusions: () => session.followed.peek()?.conclusions.peek() ?? null,
    heard: () => {
      const heard = alerts.heard.peek().map(({ recordingId, book }) => {
        const followed = book.session.peek()?.followed.peek();
        return [recordingId, followed?.conclusions.peek() ?? null] as const;
      });
      return Object.fromEntries(heard);
    },
  };
}
