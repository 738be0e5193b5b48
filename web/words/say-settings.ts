/** Words of the settings. */

export const LOOK_NAMES = {
  system: 'as the system',
  day: 'day',
  night: 'night',
  sun: 'full sun',
} as const;

/** On the button that changes it. */
export function sayLook(shown: keyof typeof LOOK_NAMES, next: keyof typeof LOOK_NAMES): string {
  return `Look: ${LOOK_NAMES[shown]}. Change to ${LOOK_NAMES[next]}.`;
}

export function saySound(state: 'blocked' | 'ready' | 'none'): string {
  switch (state) {
    case 'blocked':
      return 'The browser blocks sound until you touch the page once.';
    case 'ready':
      return 'That was it. Too quiet? Turn the computer up.';
    case 'none':
      return 'This browser makes no sound.';
  }
}
