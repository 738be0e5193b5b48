/** Alerts: they name the value that raised them, and when. */
import type { Verdict } from '../analysis/conclusions.ts';
import { sayMoment } from './say-duration.ts';
import { saySetting } from './say-pressure.ts';
import type { Speech } from './speech.ts';

export type AlertFact =
  | { readonly kind: 'target'; readonly atS: number; readonly targetPa: number }
  | { readonly kind: 'verdict'; readonly atS: number; readonly verdict: Verdict }
  /** Another verdict on the same hold; `before` is null where it is not known which it was. */
  | {
      readonly kind: 'verdict_changed';
      readonly atS: number;
      readonly verdict: Verdict;
      readonly before: Verdict | null;
    };

export interface AlertWords {
  readonly title: string;
  readonly detail: string;
}

export function sayAlert(alert: AlertFact, rehearsal: boolean, speech: Speech): AlertWords {
  const { alerts: words, verdict: verdicts } = speech.wording;
  const at = sayMoment(alert.atS);
  const place = rehearsal ? words.intoRehearsal({ at }) : words.intoRecording({ at });
  switch (alert.kind) {
    case 'target': {
      const target = saySetting(alert.targetPa, speech);
      return {
        title: words.targetReached({ target }),
        detail: words.targetHeld({ target, place }),
      };
    }
    case 'verdict':
      return {
        title: words.verdict({ verdict: verdicts.names[alert.verdict] }),
        detail: words.drawn({ place }),
      };
    case 'verdict_changed':
      return {
        title:
          alert.verdict === 'undecided'
            ? words.withdrawn
            : words.verdictNow({ verdict: verdicts.names[alert.verdict] }),
        detail: saySince(alert.before, place, speech),
      };
  }
}

function saySince(before: Verdict | null, place: string, { wording }: Speech): string {
  const { since, sinceNotTight, sinceBefore } = wording.alerts;
  if (before === null) return since({ place });
  if (before === 'tight_dry') return sinceNotTight({ place });
  return sinceBefore({ place, before: wording.verdict.names[before] });
}
