/** What a trainee can say was the matter: what it is, and not how the curve tells it. */
import type { RehearsalCause } from '../../protocol/api.ts';

export interface RehearsalCauseWords {
  readonly name: string;
  readonly means: string;
}

export const REHEARSAL_CAUSE_WORDS: Readonly<Record<RehearsalCause, RehearsalCauseWords>> = {
  in_order: {
    name: 'In order',
    means: 'Tight and dry, and nothing wrong with pump, hose or sensor.',
  },
  moisture: { name: 'Moisture', means: 'Water or ice in the system, and no leak.' },
  leak: { name: 'Leak', means: 'The system lets air in, and is dry.' },
  leak_and_moisture: {
    name: 'Leak and moisture',
    means: 'The system lets air in, and there is water in it too.',
  },
  gear_leak: {
    name: 'Leak in the gear',
    means: 'Hose, core tool or the sensor’s joint lets air in; the system is tight.',
  },
  charged_side: {
    name: 'Refrigerant past a valve',
    means: 'A shut valve lets some through from a part that is charged.',
  },
  refrigerant: {
    name: 'Refrigerant in the oil',
    means: 'The compressor’s oil gives off what it had dissolved.',
  },
  pump_or_oil: { name: 'Pump or its oil', means: 'The pump by itself does not go deep enough.' },
  ballast_open: { name: 'Gas ballast open', means: 'The pump lets air into itself all the time.' },
  narrow_way: {
    name: 'Narrow way to the pump',
    means: 'Cores left in, or a long or thin hose: the pump’s speed does not come through.',
  },
  sensor_place: {
    name: 'Sensor in the wrong place',
    means: 'It does not see the system, but the pump’s end of the hose.',
  },
  part_shut_off: {
    name: 'A part shut off',
    means: 'A shut valve keeps a part, or what is in its bore, from the pump.',
  },
  battery: { name: 'Pump’s battery', means: 'It ran out in the middle of the work.' },
  radio: { name: 'Radio', means: 'Readings did not arrive; the system is in order.' },
};

export function nameCause(cause: RehearsalCause): string {
  return REHEARSAL_CAUSE_WORDS[cause].name;
}

/** Within a sentence: only the first letter is a capital there. */
export function causeInSentence(cause: RehearsalCause): string {
  const name = nameCause(cause);
  return name.charAt(0).toLowerCase() + name.slice(1);
}
