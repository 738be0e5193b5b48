/** Causes in order of likelihood, each with its evidence and the check that tells them apart. */
import type { Conclusions } from '../analysis/conclusions.ts';
import { choices } from '../store/choices.ts';
import { sayCause, sayLikelihood } from '../words/say-cause.ts';

/** Less likely than this is not worth the technician's time (a setting of ours). */
const WORTH_NAMING = 0.08;
const MOST = 3;

export function Causes({ conclusions }: { readonly conclusions: Conclusions | null }) {
  const forecast = conclusions?.forecast ?? null;
  if (forecast === null || forecast.outcome === 'reached') return null;
  const causes = forecast.causes.filter(({ weight }) => weight >= WORTH_NAMING).slice(0, MOST);
  const worth = causes.some(({ cause }) => cause !== 'gas');
  if (!worth) return null;
  return (
    <details class="causes" data-testid="causes" open={forecast.outcome === 'levels_off'}>
      <summary>Why, and how to tell</summary>
      <ol>
        {causes.map(({ cause, weight }) => {
          const words = sayCause(cause, forecast.boilingPointC, choices.value);
          return (
            <li key={cause} data-cause={cause}>
              <b>{words.name}</b> <span class="quiet">({sayLikelihood(weight)})</span>
              <br />
              {words.evidence} <i>{words.check}</i>
            </li>
          );
        })}
      </ol>
    </details>
  );
}
