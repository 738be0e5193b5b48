/** Cautions, each where it belongs in the work. The program advises; others decide. */
import type { MarkKind } from '../../protocol/mark.ts';

export type CautionPlace = 'nitrogen' | 'hook_up' | 'pull_down' | 'rise' | 'closing_up';

export const CAUTIONS: Readonly<Record<CautionPlace, readonly string[]>> = {
  nitrogen: [
    'Nitrogen only through a regulator and with a relief device, never above the maker’s test pressure. Never oxygen or air.',
    'Vent before the vacuum sensor is opened to the system: test pressure destroys it.',
    'Nitrogen displaces oxygen in closed rooms: ventilate.',
    'Eye protection and gloves.',
  ],
  hook_up: [
    'Recover refrigerant, never vent it; licensed people only.',
    'Flammable refrigerant: recover and purge with nitrogen first, ventilate, exhaust outdoors, use a pump rated for it and switch it outside the zone. Laptop and sensor are ignition sources too.',
    'Lock out the outdoor unit’s power. Where expansion valves need power to open, use the maker’s own vacuum or service mode only.',
    'Put the sensor on the system’s side, as far from the pump as the piping allows.',
  ],
  pull_down: [
    'Never run a compressor under vacuum, nor test its windings with high voltage there.',
    'Pump and oil are hot; oil mist goes outdoors.',
    'Valve off before the pump stops, or before its battery is changed: oil is drawn back otherwise.',
    'Crankcase heat only by the maker’s rule.',
  ],
  rise: [
    'Never open the core tool to the air while the system is under vacuum.',
    'A vacuum hold finds gross leaks; the nitrogen test decides tightness.',
  ],
  closing_up: [
    'Put the cores back without losing the vacuum; close the tool before anything is taken off.',
    'Valve off the sensor before the charge reaches it.',
    'Open the valves in the equipment maker’s order, refrigerant to positive pressure, and only then power.',
    'The compressor is never started in a vacuum.',
  ],
};

/** In a line, beside the button that does it or marks it. */
export const MARK_CAUTIONS: Partial<Readonly<Record<MarkKind, string>>> = {
  nitrogen_break:
    'Dry nitrogen through a regulator, with a relief device; never oxygen or air. Ventilate. Valve the sensor off first if it is not rated for it.',
  cores_out: 'With a core tool. Never open it to the air while the system is under vacuum.',
  oil_changed: 'Valve off and stop the pump first. Pump and oil are hot.',
  battery_changed: 'Valve off first: oil is drawn back otherwise.',
  joints_tightened: 'Two wrenches, and torque by the maker’s table. Gloves and eye protection.',
  sections_opened:
    'Where a valve needs power to open, use the maker’s own vacuum or service mode only. Never into a part that is still charged.',
  stub_shut: 'The curve shows hose and sensor joint alone from then on, not the system.',
  stub_opened: 'Never onto a system under pressure: that destroys the sensor.',
};

export const WHO_DECIDES =
  'This program advises. The equipment maker’s instructions, local codes and the licensed person on site decide.';

export const WORK_NAMES: Readonly<Record<CautionPlace, string>> = {
  nitrogen: 'Nitrogen test',
  hook_up: 'Hook-up',
  pull_down: 'Pull-down',
  rise: 'Rise',
  closing_up: 'Closing up',
};
