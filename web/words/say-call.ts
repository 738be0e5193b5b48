/** What a trainee can say was the matter, and how it compares with the truth. */
import type { Call, RehearsalCause, Reveal } from '../../protocol/api.ts';
import { sayMoment } from './say-duration.ts';

interface CauseWords {
  readonly name: string;
  /** What tells it from the others. */
  readonly sign: string;
}

export const CAUSE_WORDS: Readonly<Record<RehearsalCause, CauseWords>> = {
  in_order: { name: 'Nothing: it is tight and dry', sign: 'It comes down, and it holds.' },
  moisture: { name: 'Moisture', sign: 'It halts on the way down, or the rise levels off.' },
  leak: { name: 'A leak in the system', sign: 'The rise is a straight line that does not end.' },
  leak_and_moisture: {
    name: 'A leak, and moisture too',
    sign: 'The rise bends at first and is straight after that.',
  },
  gear_leak: {
    name: 'A leak in hose, tool or sensor joint',
    sign: 'It ends with the valve shut, or stays with the sensor alone.',
  },
  charged_side: {
    name: 'Gas past a valve from the charged side',
    sign: 'A straight line that no tightening of joints changes.',
  },
  refrigerant: {
    name: 'Refrigerant coming out of the oil',
    sign: 'A long tail on the way down, a rise that bends for long.',
  },
  pump_or_oil: {
    name: 'The pump or its oil',
    sign: 'It levels off too high, and the system holds all the same.',
  },
  ballast_open: {
    name: 'The gas ballast was left open',
    sign: 'It levels off where a pump with open ballast does.',
  },
  narrow_way: {
    name: 'Cores left in, or hoses too thin',
    sign: 'Slow from the start, with no plateau of its own.',
  },
  sensor_place: {
    name: 'The sensor sits at the pump',
    sign: 'It is deep too soon, and drops or stays when the valve is shut.',
  },
  part_shut_off: {
    name: 'Part of the system is shut off',
    sign: 'It comes down faster than that volume can, or rises in a step.',
  },
  battery: {
    name: 'The pump stopped: its battery is empty',
    sign: 'It rises in the middle of the pull-down.',
  },
  radio: { name: 'The radio lost the sensor', sign: 'The curve has a gap and goes on as before.' },
};

export function sayCalled(call: Call, reveal: Reveal): string {
  const called = `${CAUSE_WORDS[call.cause].name}, said ${call.trainee}, ${call.surePercent} % sure, at ${sayMoment(call.elapsedS)}.`;
  return call.cause === reveal.cause ? `Right. ${called}` : `Not right. ${called}`;
}

export function sayTold(toldS: number | null): string {
  return toldS === null
    ? 'The curve never differed from that of the same job in order.'
    : `From ${sayMoment(toldS)} on the curve differed from that of the same job in order.`;
}
