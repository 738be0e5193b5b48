/** Words of the settings. */

export const SETTINGS_WORDS = {
  title: 'Units and look',
  menu: 'What pressures are shown in; day, night or full sun.',
  pressure: 'Pressure in',
  temperature: 'Temperature in',
  look: 'Look',
} as const;

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
