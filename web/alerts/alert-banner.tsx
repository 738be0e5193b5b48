/** The latest that was announced and not yet been seen; acknowledging it brings up the one before. */
import { speech } from '../store/speech.ts';
import { openAlerts, seen } from './alerting.ts';

export function AlertBanner() {
  const words = speech.value.wording.alerts;
  const alert = openAlerts.value.at(-1);
  const before = openAlerts.value.length - 1;
  return (
    <div role="alert" aria-live="assertive" data-testid="alerts">
      {alert !== undefined && (
        <div key={alert.key} class="alert" data-testid="alert">
          <div>
            <b>{alert.title}.</b> {alert.detail}
            {before > 0 && ` ${words.andBefore({ count: before })}`}
            {alert.unheard && <i> {words.noSound}</i>}
          </div>
          <button type="button" data-testid="seen" onClick={() => seen(alert.key)}>
            {words.seen}
          </button>
        </div>
      )}
    </div>
  );
}
