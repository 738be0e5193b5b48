/** Why a sensor gives no number, or one to be taken with care. */
import type { Condition } from '../../protocol/reading.ts';

export function sayCondition(condition: Condition): string {
  switch (condition) {
    case 'ok':
      return 'The sensor gives no number';
    case 'over_range':
      return 'above the sensor’s range';
    case 'under_range':
      return 'below the sensor’s range';
    case 'warming_up':
      return 'The sensor is still warming up.';
    case 'fault':
      return 'The sensor reports a fault';
  }
}
