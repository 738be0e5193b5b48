/** What to do, step by step, when the bridge has no Bluetooth: it differs with what the computer runs. */
import type { ProblemCode } from '../../protocol/problems.ts';
import type { Platform } from '../../protocol/stream.ts';
import type { Speech } from './speech.ts';

type Missing = 'adapter' | 'off' | 'permission';

const MISSING: Readonly<Partial<Record<ProblemCode, Missing>>> = {
  no_bluetooth: 'adapter',
  no_adapter: 'adapter',
  adapter_off: 'off',
  no_permission: 'permission',
};

/** Empty where the remedy is said already, or nothing is missing. */
export function bluetoothSteps(
  problem: ProblemCode | null,
  platform: Platform,
  { wording }: Speech,
): readonly string[] {
  const missing = problem === null ? undefined : MISSING[problem];
  return missing === undefined ? [] : wording.bluetoothHelp[missing][platform];
}
