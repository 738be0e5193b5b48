/** What to do, step by step, when the bridge has no Bluetooth: it differs with what the computer runs. */
import type { ProblemCode } from '../../protocol/problems.ts';
import type { Platform } from '../../protocol/stream.ts';

type Missing = 'adapter' | 'off' | 'permission';

const MISSING: Readonly<Partial<Record<ProblemCode, Missing>>> = {
  no_bluetooth: 'adapter',
  no_adapter: 'adapter',
  adapter_off: 'off',
  no_permission: 'permission',
};

/** From the systems' own handbooks, from memory; to be tried with an adapter in hand. */
const STEPS: Readonly<Record<Missing, Readonly<Record<Platform, readonly string[]>>>> = {
  adapter: {
    linux: [
      'Plug in a Bluetooth adapter, 4.0 or later. “bluetoothctl list” shows whether it is seen.',
      'A built-in one may be blocked: “rfkill list”, then “rfkill unblock bluetooth”.',
      'In a virtual machine or a container, pass the adapter through to it.',
    ],
    macos: ['System Settings, Bluetooth: switch it on.', 'If it is missing there, restart.'],
    windows: [
      'Settings, Bluetooth & devices: switch it on.',
      'A desktop computer may have none: plug in an adapter, 4.0 or later.',
    ],
    other: ['Plug in a Bluetooth adapter, 4.0 or later.'],
  },
  off: {
    linux: ['Switch Bluetooth on in the settings, or run “bluetoothctl power on”.'],
    macos: ['System Settings, Bluetooth: switch it on.'],
    windows: ['Settings, Bluetooth & devices: switch it on. Check for a flight mode.'],
    other: ['Switch Bluetooth on in the settings of this computer.'],
  },
  permission: {
    linux: [
      'Stop the bridge with Ctrl+C.',
      'Run once: sudo setcap cap_net_raw+eip $(readlink -f $(which node))',
      'Start it again: npm start',
    ],
    macos: [
      'System Settings, Privacy & Security, Bluetooth: allow the terminal in which the bridge runs.',
      'Start the bridge again: npm start',
    ],
    windows: [
      'Settings, Privacy & security, Radios: let desktop apps use them.',
      'Start the bridge again: npm start',
    ],
    other: ['Allow the program that runs the bridge to use Bluetooth.'],
  },
};

/** Empty where the remedy is said already, or nothing is missing. */
export function bluetoothSteps(problem: ProblemCode | null, platform: Platform): readonly string[] {
  const missing = problem === null ? undefined : MISSING[problem];
  return missing === undefined ? [] : STEPS[missing][platform];
}
