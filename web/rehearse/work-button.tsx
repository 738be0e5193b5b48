/** A button of the rehearsal's bar: words where there is room for them, else its sign. */
import type { IconNode } from 'lucide';
import { Icon } from '../parts/icon.tsx';

interface WorkButtonProps {
  readonly testId: string;
  /** Stands for the words on a small screen, where these are only heard, and shown to a pointer. */
  readonly sign: IconNode;
  readonly words: string;
  /** In their place where there is little room. */
  readonly short?: string;
  /** Whether a panel opens, which asks first. */
  readonly asks?: boolean;
  readonly press: () => void;
}

export function WorkButton({ testId, sign, words, short, asks, press }: WorkButtonProps) {
  return (
    <button
      type="button"
      data-testid={testId}
      title={words}
      aria-haspopup={asks ? 'dialog' : undefined}
      onClick={press}
    >
      <Icon of={sign} />
      <span class="in-words">
        {short === undefined ? (
          words
        ) : (
          <>
            <span class="roomy">{words}</span>
            <span class="tight">{short}</span>
          </>
        )}
      </span>
    </button>
  );
}
