/** The page before the first recording. */
export const FIRST_MINUTE = {
  toSensor: 'With a sensor',
  none: 'No sensor is looked for',
  onItsOwn:
    'Switch the sensor on, within reach. Recording starts by itself with its first reading.',
  toRehearsal: 'Without one',
  learn: 'Rehearse on a simulated job',
  firstJob:
    'The pump pulls down a bakery’s cold room, twenty times as fast as in life. Nothing is connected and nothing can break: watch the number, then say what was wrong, if anything.',
  first: 'Start this rehearsal',
  others: 'Choose another job',
  otherwise: 'Or',
} as const;
