/** What is concluded, for eyes two metres away: forecast or verdict, and how sure it is. */
import { CircleCheckBig, Hourglass, type IconNode, TriangleAlert } from 'lucide';
import { Icon } from '../parts/icon.tsx';
import type { SaidConclusion } from '../words/said-conclusion.ts';

/** Beside colour and frame: the three are told apart without either. */
const SIGNS: Readonly<Record<SaidConclusion['tone'], IconNode>> = {
  calm: Hourglass,
  good: CircleCheckBig,
  warning: TriangleAlert,
};

interface SayCardProps {
  readonly said: Omit<SaidConclusion, 'detail'> | null;
  /** Where it stands elsewhere than beside the curve. */
  readonly testId?: string;
}

export function SayCard({ said, testId = 'say' }: SayCardProps) {
  if (said === null) return null;
  return (
    <section
      class={`say say-${said.tone}`}
      data-testid={testId}
      data-tone={said.tone}
      aria-live="off"
    >
      <h2 data-testid={testId === 'say' ? 'headline' : `${testId}-headline`}>
        <Icon of={SIGNS[said.tone]} size="0.9em" /> {said.headline}
      </h2>
      {said.sure !== '' && <p data-testid="sure">{said.sure}</p>}
    </section>
  );
}
