/** What each of a technician's actions does to a simulated rig, and the mark that it leaves. */
import type { RehearsalAction } from '../../protocol/api.ts';
import type { MarkKind } from '../../protocol/mark.ts';
import type { Controls } from '../physics/controls.ts';
import type { RigState } from '../physics/rig-state.ts';
import { withFreshBattery, withFreshOil } from '../physics/service.ts';
import { ISOLATION, STUB } from './building-blocks.ts';

interface Effect {
  readonly mark: MarkKind;
  readonly onControls?: (controls: Controls, nitrogenPa: number) => Controls;
  readonly onRig?: (rig: RigState) => RigState;
}

const EFFECTS: Readonly<Record<RehearsalAction, Effect>> = {
  pump_on: { mark: 'pump_on', onControls: (controls) => ({ ...controls, pumpOn: true }) },
  pump_off: { mark: 'pump_off', onControls: (controls) => ({ ...controls, pumpOn: false }) },
  ballast_open: {
    mark: 'ballast_opened',
    onControls: (controls) => ({ ...controls, ballastOpen: true }),
  },
  ballast_close: {
    mark: 'ballast_closed',
    onControls: (controls) => ({ ...controls, ballastOpen: false }),
  },
  isolate: { mark: 'isolated', onControls: (controls) => turned(controls, ISOLATION, 0) },
  // Nobody pumps on an open cylinder: opening to the pump shuts the nitrogen.
  reopen: {
    mark: 'reopened',
    onControls: (controls) => ({ ...turned(controls, ISOLATION, 1), nitrogenPa: null }),
  },
  take_cores_out: {
    mark: 'cores_out',
    onControls: (controls) => ({ ...controls, coresOut: true }),
  },
  change_oil: { mark: 'oil_changed', onRig: withFreshOil },
  change_battery: { mark: 'battery_changed', onRig: withFreshBattery },
  tighten_joints: {
    mark: 'joints_tightened',
    onControls: (controls) => ({ ...controls, tightened: true }),
  },
  break_with_nitrogen: {
    mark: 'nitrogen_break',
    onControls: (controls, nitrogenPa) => ({ ...turned(controls, ISOLATION, 0), nitrogenPa }),
  },
  shut_sections: { mark: 'sections_shut', onControls: (controls) => innerTurned(controls, 0) },
  open_sections: { mark: 'sections_opened', onControls: (controls) => innerTurned(controls, 1) },
  shut_stub: { mark: 'stub_shut', onControls: (controls) => turned(controls, STUB, 0) },
  open_stub: { mark: 'stub_opened', onControls: (controls) => turned(controls, STUB, 1) },
};

interface Hands {
  readonly controls: Controls;
  readonly rig: RigState;
}

/** @returns what has changed, or null where everything already stood so */
export function done(
  action: RehearsalAction,
  { controls, rig }: Hands,
  nitrogenPa: number,
): (Hands & { readonly mark: MarkKind }) | null {
  const { mark, onControls, onRig } = EFFECTS[action];
  const after = {
    controls: onControls?.(controls, nitrogenPa) ?? controls,
    rig: onRig?.(rig) ?? rig,
  };
  const same = after.rig === rig && JSON.stringify(after.controls) === JSON.stringify(controls);
  return same ? null : { ...after, mark };
}

/** A valve that this rig lacks is not turned. */
/** All valves within the system, and not those at the core tool and before the sensor. */
function innerTurned(controls: Controls, opening: number): Controls {
  const inner = Object.keys(controls.openings).filter(
    (name) => name !== ISOLATION && name !== STUB,
  );
  return inner.reduce((before, name) => turned(before, name, opening), controls);
}

function turned(controls: Controls, valve: string, opening: number): Controls {
  if (!(valve in controls.openings)) return controls;
  return { ...controls, openings: { ...controls.openings, [valve]: opening } };
}
