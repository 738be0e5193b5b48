/** Why it stalls: causes in order of likelihood with their evidence, and the check that tells them apart. */
import type { Conclusions } from '../analysis/conclusions.ts';
import { speech } from '../store/speech.ts';
import { causeFacts, sayCause, sayLikelihood } from '../words/say-cause.ts';
import { tellingCheck } from '../words/say-telling-check.ts';

/** Less likely than this is not worth the technician's time (a setting of ours). */
const WORTH_NAMING = 0.08;
const MOST = 3;

export function Causes({ conclusions }: { readonly conclusions: Conclusions | null }) {
  const forecast = conclusions?.forecast ?? null;
  if (conclusions === null || forecast === null || forecast.outcome === 'reached') return null;
  const causes = forecast.causes.filter(({ weight }) => weight >= WORTH_NAMING).slice(0, MOST);
  const worth = causes.some(({ cause }) => cause !== 'gas');
  if (!worth) return null;
  const stalls = forecast.outcome === 'levels_off' || causes[0]?.cause === 'boil_off';
  const facts = causeFacts(conclusions);
  const { wording } = speech.value;
  return (
    <details class="causes" data-testid="causes" open={stalls}>
      <summary>{wording.causes.summary}</summary>
      <ol>
        {causes.map(({ cause, weight }) => {
          const words = sayCause(cause, facts, speech.value);
          return (
            <li key={cause} data-cause={cause}>
              <b>{words.name}</b> <span class="quiet">{sayLikelihood(weight, speech.value)}</span>
              <br />
              {words.evidence} <i>{words.check}</i>
            </li>
          );
        })}
      </ol>
      <Telling
        check={tellingCheck(
          causes.map(({ cause }) => cause),
          speech.value,
        )}
      />
    </details>
  );
}

function Telling({ check }: { readonly check: ReturnType<typeof tellingCheck> }) {
  if (check === null) return null;
  return (
    <div class="telling" data-testid="telling">
      <p>
        {speech.value.wording.tellingCheck.toTellApart} <b>{check.todo}</b>
      </p>
      <ul>
        {check.outcomes.map((outcome) => (
          <li key={outcome}>{outcome}</li>
        ))}
      </ul>
      {check.caution !== '' && <p class="quiet">{check.caution}</p>}
    </div>
  );
}
