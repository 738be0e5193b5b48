/** Day, night or full sun at one touch: with gloves on, in the sun, nobody looks for a setting. */
import { Moon, Sun, SunDim } from 'lucide';
import { Icon } from '../parts/icon.tsx';
import { choose, look } from '../store/choices.ts';
import { speech } from '../store/speech.ts';
import { sayLook } from '../words/say-settings.ts';

const ICONS = { day: SunDim, sun: Sun, night: Moon } as const;
const NEXT = { day: 'sun', sun: 'night', night: 'day' } as const;

export function LookButton() {
  const shown = look.value;
  const words = sayLook(shown, NEXT[shown], speech.value);
  return (
    <button
      type="button"
      class="head-button"
      data-testid="look"
      title={words}
      aria-label={words}
      onClick={() => choose({ look: NEXT[shown] })}
    >
      <Icon of={ICONS[shown]} />
    </button>
  );
}
