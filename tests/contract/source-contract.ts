/** What every source of readings promises to the rest of the bridge. */
import { describe, expect, it } from 'vitest';
import { newMarkSchema } from '../../protocol/mark.ts';
import { sensorIdentitySchema } from '../../protocol/recording.ts';
import { sourceStateSchema } from '../../protocol/source-state.ts';
import type { Source } from '../../server/sources/source.ts';
import { SourceEar } from '../support/source-ear.ts';

export interface SourceStage {
  readonly source: Source;
  /** Lets the world bring about so many readings, or what would be readings if somebody listened. */
  readonly bringReadings: (count: number) => Promise<void>;
  readonly close: () => Promise<void>;
}

const COUNT = 20;

export function describeSourceContract(name: string, create: () => Promise<SourceStage>): void {
  const onStage = async (
    play: (stage: SourceStage, ear: SourceEar) => Promise<void>,
  ): Promise<void> => {
    const stage = await create();
    try {
      await play(stage, new SourceEar());
    } finally {
      await stage.close();
    }
  };

  const hear = async ({ source, bringReadings }: SourceStage, ear: SourceEar): Promise<void> => {
    source.start(ear);
    await bringReadings(COUNT);
    await ear.until('readings', () => ear.readings.length >= COUNT);
  };

  describe(`the contract of a source: ${name}`, () => {
    it('says at once what it is doing, and only what a screen can show', () =>
      onStage(async (stage, ear) => {
        stage.source.start(ear);
        expect(ear.states.length).toBeGreaterThan(0);
        await stage.bringReadings(COUNT);
        await ear.until('readings', () => ear.readings.length >= COUNT);
        for (const state of ear.states) {
          expect(sourceStateSchema.parse(state)).toEqual(state);
          expect(state.id).toBe(stage.source.id);
        }
      }));

    it('introduces a sensor before its first reading', () =>
      onStage(async (stage, ear) => {
        await hear(stage, ear);
        expect(ear.order.indexOf('sensor')).toBeGreaterThanOrEqual(0);
        expect(ear.order.indexOf('sensor')).toBeLessThan(ear.order.indexOf('reading'));
        for (const identity of ear.identities) {
          expect(sensorIdentitySchema.parse(identity)).toEqual(identity);
        }
        const known = new Set(ear.identities.map(({ id }) => id));
        expect(ear.readings.filter(({ sensorId }) => !known.has(sensorId))).toEqual([]);
      }));

    it('delivers bytes whose time of arrival never goes back', () =>
      onStage(async (stage, ear) => {
        await hear(stage, ear);
        const arrivals = ear.readings.map(({ arrivedMs }) => arrivedMs);
        expect(arrivals).toEqual([...arrivals].sort((a, b) => a - b));
        expect(arrivals.every(Number.isFinite)).toBe(true);
        expect(ear.readings.every(({ bytes }) => bytes instanceof Uint8Array)).toBe(true);
      }));

    it('delivers no mark that the record would refuse', () =>
      onStage(async (stage, ear) => {
        await hear(stage, ear);
        for (const mark of ear.marks) expect(newMarkSchema.parse(mark)).toEqual(mark);
      }));

    it('delivers nothing any more once it has stopped', () =>
      onStage(async (stage, ear) => {
        await hear(stage, ear);
        await stage.source.stop();
        const before = ear.order.length;
        await stage.bringReadings(COUNT);
        expect(ear.order).toHaveLength(before);
      }));

    it('stops as often as it is asked to, started or not', () =>
      onStage(async (stage, ear) => {
        await hear(stage, ear);
        await Promise.all([stage.source.stop(), stage.source.stop()]);
        await stage.source.stop();
        await onStage(async (unstarted) => unstarted.source.stop());
      }));
  });
}
