/** What has been announced and not yet been acknowledged. */
import { openAlerts, seen } from './alerting.ts';

export function AlertBanner() {
  return (
    <div class="alerts" role="alert" aria-live="assertive" data-testid="alerts">
      {openAlerts.value.map((alert) => (
        <div key={alert.key} class="alert" data-testid="alert">
          <div>
            <b>{alert.title}</b> {alert.detail}
            {alert.unheard && (
              <i> The browser blocked the sound: touch the page once to allow it.</i>
            )}
          </div>
          <button type="button" data-testid="seen" onClick={() => seen(alert.key)}>
            Seen
          </button>
        </div>
      ))}
    </div>
  );
}
