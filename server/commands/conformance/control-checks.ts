/** Section 6: what can be written to Control. */
import { CONTROL_UUID, SET_INTERVAL_FIELDS } from '../../../protocol/profile.ts';
import { encode } from '../../../protocol/profile-codec.ts';
import { expectRefusal } from './access.ts';
import { hex, same } from './bytes.ts';
import { expect, NotTriedError } from './check-errors.ts';
import type { Check } from './check.ts';
import { RefusedError } from './peer.ts';
import { expectInterval } from './reading-checks.ts';
import type { Visit } from './visit.ts';

const VALUE_NOT_ALLOWED = 0x13;
const LONGEST_MS = 0xffff;
/** So many measurements at the other interval. */
const MEASUREMENTS = 4;

const NONSENSE: readonly (readonly [what: string, bytes: readonly number[]])[] = [
  ['a command of nobody', [0xee, 1, 2]],
  ['the reserved command', [0]],
  ['an interval without its number', [1]],
  ['an interval of 0 ms', [1, 0, 0]],
];

export const CONTROL_CHECKS: readonly Check[] = [
  {
    id: 'control-refuses',
    section: '6',
    level: 'must',
    what: 'Control answers Value Not Allowed to what it cannot follow, and leaves all as it was.',
    attempt: async (visit) => {
      await visit.need(CONTROL_UUID, 'Control', 'write');
      const before = await visit.capabilitiesBytes();
      let remark: string | undefined;
      for (const [what, bytes] of NONSENSE) {
        const attempt = () => visit.peer.write(CONTROL_UUID, Uint8Array.from(bytes));
        remark = await expectRefusal(VALUE_NOT_ALLOWED, attempt, `, to ${what}`);
      }
      await visit.capabilities(true);
      const after = await visit.capabilitiesBytes();
      expect(same(before, after), `Capabilities as before: ${hex(before)}`, hex(after));
      return remark;
    },
  },
  {
    id: 'control-interval',
    section: '6',
    level: 'must',
    what: 'An interval that it takes is the one that Capabilities say and that it measures at.',
    attempt: async (visit) => {
      await visit.need(CONTROL_UUID, 'Control', 'write');
      const { intervalMs, shortestIntervalMs } = await visit.capabilities();
      const other = intervalMs * 2 <= LONGEST_MS ? intervalMs * 2 : shortestIntervalMs;
      if (intervalMs < shortestIntervalMs) {
        throw new NotTriedError('its own interval is one that it would not take again');
      }
      if (other === intervalMs || other === 0)
        throw new NotTriedError('there is no other interval');
      try {
        await setInterval(visit, other);
      } catch (error) {
        if (error instanceof RefusedError) return `it refuses ${other} ms`;
        throw error;
      }
      try {
        await expectObeyed(visit, other);
      } finally {
        await restore(visit, intervalMs, other);
      }
      const restored = await visit.capabilities();
      expect(
        restored.intervalMs === intervalMs,
        `${intervalMs} ms again`,
        String(restored.intervalMs),
      );
      return `${other} ms, and back to ${intervalMs} ms`;
    },
  },
];

/** What comes later stands on the old interval, so it is waited for. */
async function restore(visit: Visit, intervalMs: number, otherMs: number): Promise<void> {
  await setInterval(visit, intervalMs);
  await visit.capabilities(true);
  if (visit.live.length === 0) return;
  const from = visit.live.length;
  const { listenMs, graceMs } = visit.patience;
  const limitMs = Math.min(listenMs, otherMs + 2 * intervalMs + graceMs);
  await visit.until(() => visit.live.length >= from + 2, limitMs);
}

function setInterval(visit: Visit, intervalMs: number): Promise<void> {
  const command = encode(SET_INTERVAL_FIELDS, { command: 'setInterval', intervalMs });
  return visit.peer.write(CONTROL_UUID, command);
}

async function expectObeyed(visit: Visit, intervalMs: number): Promise<void> {
  const said = await visit.capabilities(true);
  expect(
    said.intervalMs === intervalMs,
    `Capabilities with ${intervalMs} ms`,
    `${said.intervalMs} ms`,
  );
  if (visit.live.length === 0) throw new NotTriedError('nothing was notified');
  // The next one may still come at the interval before.
  const from = visit.live.length + 1;
  const { listenMs, graceMs } = visit.patience;
  const limitMs = Math.min(listenMs, (MEASUREMENTS + 2) * intervalMs + graceMs);
  await visit.until(() => visit.live.length >= from + MEASUREMENTS, limitMs);
  const since = visit.live.slice(from);
  expectInterval(
    since.flatMap(({ reading }) => (reading === null ? [] : [reading])),
    intervalMs,
  );
}
