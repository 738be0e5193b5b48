/** What the technician has in hand. */
import type { RigSetup } from './rig-setup.ts';

export interface Controls {
  readonly pumpOn: boolean;
  readonly ballastOpen: boolean;
  /** How far each valve is open, by name: 0 shut to 1 fully open. */
  readonly openings: Readonly<Record<string, number>>;
  /** The valve cores have been taken out. */
  readonly coresOut: boolean;
  /** Joints that can be tightened have been. */
  readonly tightened: boolean;
  /** What the nitrogen's regulator is set to, Pa absolute; null while its valve is shut. */
  readonly nitrogenPa: number | null;
}

/** Everything as it is found: pump off, valves as in the setup. */
export function controlsAsFound({ valves }: Pick<RigSetup, 'valves'>): Controls {
  return {
    pumpOn: false,
    ballastOpen: false,
    openings: Object.fromEntries(valves.map(({ name, opening }) => [name, opening])),
    coresOut: false,
    tightened: false,
    nitrogenPa: null,
  };
}
