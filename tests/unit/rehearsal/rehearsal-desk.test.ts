import { expect, test } from 'vitest';
import type { Call, KeptReveal, NewCall } from '../../../protocol/api.ts';
import { RehearsalDesk } from '../../../server/sources/rehearsal/rehearsal-desk.ts';

const WISH = { name: 'weir-street-archive', seed: 7, rate: 1, helper: true } as const;
const CALL: NewCall = { trainee: 'Ines', cause: 'leak', surePercent: 60 };

/** A desk whose ledger keeps calls and reveals, each once it is let. */
function desk() {
  const calls: Call[] = [];
  const reveals: KeptReveal[] = [];
  const facts: string[] = [];
  let recordings = 0;
  const rehearsals = new RehearsalDesk({
    ledger: {
      begin: () => {
        recordings += 1;
        facts.push(`begin ${recordings}`);
        return recordings;
      },
      end: (id) => void facts.push(`end ${id}`),
      sensor: () => undefined,
      readings: () => undefined,
      mark: (_id, mark, madeBy) => Promise.resolve({ ...mark, id: 1, madeBy }),
      call: (_id, call) => Promise.resolve(void calls.push(call)),
      reveal: (_id, reveal) => Promise.resolve(void reveals.push(reveal)),
    },
    settled: () => Promise.resolve(),
    wallClock: () => 1_700_000_000_000,
    onState: () => undefined,
  });
  return { rehearsals, calls, reveals, facts };
}

test('keeps one call and one reveal, however often and however fast they come', async () => {
  const { rehearsals, calls, reveals } = desk();
  rehearsals.start(WISH);
  const first = rehearsals.call(CALL);
  await expect(rehearsals.call({ ...CALL, cause: 'moisture' })).rejects.toMatchObject({
    code: 'already_called',
  });
  await first;
  const [once, again] = await Promise.all([rehearsals.reveal({}), rehearsals.reveal({})]);
  expect(again).toEqual(once);
  expect(calls).toEqual([{ ...CALL, elapsedS: 0 }]);
  expect(reveals).toEqual([
    {
      scenario: WISH.name,
      seed: 7,
      truth: once.cause,
      toldS: null,
      revealedAtMs: 1_700_000_000_000,
    },
  ]);
});

test('ends one before it begins another, and leaves it running where there is no other', () => {
  const { rehearsals, facts } = desk();
  rehearsals.start(WISH);
  expect(() => rehearsals.start({ ...WISH, name: 'nowhere' })).toThrow(/nowhere/u);
  rehearsals.steer({ paused: true });
  rehearsals.start(WISH);
  rehearsals.stop();
  expect(facts).toEqual(['begin 1', 'end 1', 'begin 2', 'end 2']);
});
