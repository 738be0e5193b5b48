/** Going on to where something happens, with every reading on the way. */
import { describe, expect, it } from 'vitest';
import { started } from '../../support/heard-rehearsal.ts';

type Rehearsal = ReturnType<typeof started>;

const TICK_MS = 100;

/** Time passes in single ticks, and what waits for room gets its turn between them. */
async function ticks({ clock }: Rehearsal, count: number): Promise<void> {
  for (let tick = 0; tick < count; tick += 1) {
    clock.pass(TICK_MS);
    await Promise.resolve();
  }
}

const times = ({ heard }: Rehearsal): number[] =>
  heard.raw.map(({ arrivedMs }) => arrivedMs / 1000);
const consecutive = (count: number): number[] =>
  Array.from({ length: count }, (_, second) => second);

describe('a jump', () => {
  it('goes to what the helper does next, and time goes on from there at its speed', async () => {
    const rehearsal = started();
    rehearsal.source.steer({ jump: true });
    await ticks(rehearsal, 1);
    expect(rehearsal.heard.marks).toEqual([{ kind: 'pump_on', elapsedS: 20, text: '' }]);
    expect(times(rehearsal)).toEqual(consecutive(21));
    await ticks(rehearsal, 3 * (1000 / TICK_MS));
    expect(times(rehearsal)).toEqual(consecutive(24));
  });

  it('goes ten minutes on where nobody does anything', async () => {
    const rehearsal = started({ helper: false });
    rehearsal.clock.pass(7000);
    rehearsal.source.steer({ jump: true });
    await ticks(rehearsal, 12);
    expect(times(rehearsal)).toEqual(consecutive(608));
    expect(rehearsal.heard.marks).toEqual([]);
  });

  it('leaves the readings as they would have been', async () => {
    const jumped = started({ seed: 3 });
    for (let event = 0; event < 2; event += 1) {
      jumped.source.steer({ jump: true });
      await ticks(jumped, 10);
    }
    const waited = started({ seed: 3, rate: 20 });
    waited.clock.pass(((times(jumped).at(-1) ?? 0) * 1000) / 20);
    expect(jumped.heard.decoded()).toEqual(waited.heard.decoded());
    expect(jumped.heard.marks).toEqual(waited.heard.marks);
    expect(jumped.heard.marks).toHaveLength(2);
  });

  it('while paused pauses again where it ends', async () => {
    const rehearsal = started();
    rehearsal.source.steer({ paused: true });
    rehearsal.source.steer({ jump: true });
    await ticks(rehearsal, 200);
    expect(times(rehearsal)).toEqual(consecutive(21));
    expect(rehearsal.heard.states.map(({ phase }) => phase)).toEqual([
      'live',
      'paused',
      'live',
      'paused',
    ]);
  });

  it('does a bounded part of it in one tick', async () => {
    const rehearsal = started({ helper: false });
    rehearsal.source.steer({ jump: true });
    const parts: number[] = [];
    for (let tick = 0; tick < 5; tick += 1) {
      const before = rehearsal.heard.raw.length;
      await ticks(rehearsal, 1);
      parts.push(rehearsal.heard.raw.length - before);
    }
    expect(parts).toEqual(Array.from({ length: 5 }, () => 120));
  });

  it('waits while what it delivered has not been dealt with', async () => {
    const waiting: (() => void)[] = [];
    const room = () => new Promise<void>((resolve) => waiting.push(resolve));
    const rehearsal = started({ helper: false, room });
    rehearsal.source.steer({ jump: true });
    await ticks(rehearsal, 50);
    expect(times(rehearsal)).toEqual(consecutive(121));
    waiting.shift()?.();
    await ticks(rehearsal, 50);
    expect(times(rehearsal)).toEqual(consecutive(241));
    expect(rehearsal.heard.marks).toEqual([]);
  });

  it('can be followed by the end, which it does not outlive', async () => {
    const rehearsal = started();
    for (let event = 0; event < 8; event += 1) {
      if (rehearsal.clock.running === 0) break;
      rehearsal.source.steer({ jump: true });
      await ticks(rehearsal, 40);
    }
    expect(rehearsal.heard.states.at(-1)?.phase).toBe('finished');
    expect(rehearsal.clock.running).toBe(0);
    const end = rehearsal.heard.raw.length;
    await ticks(rehearsal, 20);
    expect(times(rehearsal)).toEqual(consecutive(end));
  });
});

describe('on the way', () => {
  async function underWay(): Promise<Rehearsal> {
    const rehearsal = started({ helper: false });
    rehearsal.source.steer({ jump: true });
    await ticks(rehearsal, 2);
    return rehearsal;
  }

  it('a pause is one at once', async () => {
    const rehearsal = await underWay();
    rehearsal.source.steer({ paused: true });
    const reached = rehearsal.heard.raw.length;
    expect(reached).toBeLessThan(600);
    await ticks(rehearsal, 100);
    expect(rehearsal.heard.raw).toHaveLength(reached);
    expect(rehearsal.heard.states.at(-1)?.phase).toBe('paused');
  });

  it('whoever does something is there', async () => {
    const rehearsal = await underWay();
    rehearsal.source.steer({ action: 'pump_on' });
    const reachedS = rehearsal.source.elapsedS;
    expect(reachedS).toBeLessThan(600);
    expect(rehearsal.heard.marks).toEqual([{ kind: 'pump_on', elapsedS: reachedS, text: '' }]);
    await ticks(rehearsal, 1000 / TICK_MS);
    expect(rehearsal.source.elapsedS).toBe(reachedS + 1);
  });

  it('another jump adds nothing', async () => {
    const rehearsal = await underWay();
    rehearsal.source.steer({ jump: true });
    await ticks(rehearsal, 8);
    expect(rehearsal.heard.raw).toHaveLength(601);
  });

  it('the end is one at once', async () => {
    const rehearsal = await underWay();
    await rehearsal.source.stop();
    const reached = rehearsal.heard.raw.length;
    await ticks(rehearsal, 20);
    expect(rehearsal.heard.raw).toHaveLength(reached);
  });
});
