/** The pure parts of the rehearsal's screens. */
import { describe, expect, test } from 'vitest';
import type { RehearsalCard } from '../../../protocol/api.ts';
import type { Mark, MarkKind } from '../../../protocol/mark.ts';
import type { Origin, Recording } from '../../../protocol/recording.ts';
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { moreChoices } from '../../../web/live/mark-choices.ts';
import { seedFromRandom, seedFromText, sortCards } from '../../../web/rehearse/job-cards.ts';
import { revealedMoments } from '../../../web/rehearse/revealed-moments.ts';
import { firstPumpOnS, toldCurve } from '../../../web/rehearse/told-curve.ts';
import { traineesOf } from '../../../web/rehearse/trainees.ts';
import { ChannelCurve } from '../../../web/store/channel-curve.ts';
import { ChannelReadings } from '../../../web/store/channel-readings.ts';
import { isLatestRehearsal, keepRehearsed, rehearsedOf } from '../../../web/store/rehearsed.ts';
import { MICRON } from '../../support/english-speech.ts';

const mark = (kind: MarkKind, elapsedS: number): Mark => ({
  id: elapsedS + 1,
  kind,
  elapsedS,
  text: '',
  madeBy: 'rehearsal',
});
const recording = (id: number, origin: Origin = 'rehearsal', startedAtMs = 1): Recording => ({
  id,
  origin,
  startedAtMs,
  title: 'quarry-road-bakery',
  sensors: [],
  takenFrom: null,
  open: true,
});

describe('choosing', () => {
  test('jobs that a number draws stand apart from the others, each in its order', () => {
    const card = (name: string): RehearsalCard => ({ name, place: name, situation: '' });
    const { jobs, drawn } = sortCards(
      ['mill-street', 'generated-plain', 'quay', 'generated-hard'].map(card),
    );
    expect(jobs.map(({ name }) => name)).toEqual(['mill-street', 'quay']);
    expect(drawn.map(({ name }) => name)).toEqual(['generated-plain', 'generated-hard']);
  });

  test.each([
    ['0', 0],
    [' 4711 ', 4711],
    ['4294967295', 4294967295],
    ['4294967296', null],
    ['-1', null],
    ['1.5', null],
    ['1e3', null],
    ['', null],
  ])('the job number "%s" is %s', (text, seed) => {
    expect(seedFromText(text)).toBe(seed);
  });

  test('a drawn number has four digits at most', () => {
    expect(seedFromRandom(0xffff_ffff)).toBe(7295);
    expect(seedFromRandom(9999)).toBe(9999);
  });

  test('trainees are named once, the latest first', () => {
    const names = ['Ines', 'Tomas', 'Ines'].map((trainee) => ({ trainee }));
    expect(traineesOf(names)).toEqual(['Ines', 'Tomas']);
  });
});

describe('what more can be done', () => {
  test('in a rehearsal nitrogen is among it; in a job it has a button of its own', () => {
    expect(moreChoices([], true)).toContain('nitrogen_break');
    expect(moreChoices([], false)).not.toContain('nitrogen_break');
  });

  test('of the stub only the other way is offered', () => {
    expect(moreChoices([], true)).toContain('stub_shut');
    const shut = moreChoices([mark('stub_shut', 9), mark('stub_opened', 4)], true);
    expect(shut).toContain('stub_opened');
    expect(shut).not.toContain('stub_shut');
  });
});

describe('the reveal on the curve', () => {
  test('nothing is flagged before it', () => {
    expect(revealedMoments({ call: { elapsedS: 90 }, reveal: null }, MICRON)).toEqual([]);
  });

  test('from when it told, and the call, each where there is one', () => {
    const flags = revealedMoments({ call: { elapsedS: 90 }, reveal: { toldS: 60 } }, MICRON);
    expect(flags.map(({ elapsedS }) => elapsedS)).toEqual([60, 90]);
    expect(revealedMoments({ call: null, reveal: { toldS: null } }, MICRON)).toEqual([]);
  });

  test('the whole curve counts from the first start of the pump, flags and all', () => {
    const curve = new ChannelCurve(new ChannelReadings(0));
    const fresh = curve.readings.insert(
      Array.from({ length: 600 }, (_, index) => ({
        index,
        channel: 0,
        boot: 1,
        sequence: index,
        elapsedS: index,
        pressurePa: 100,
        temperatureC: null,
        condition: 'ok',
      })),
    );
    curve.insert(fresh);
    const marks = [mark('pump_on', 300), mark('pump_on', 20)];
    const { time, flags } = toldCurve({
      recordingId: 1,
      curve,
      marks,
      sheet: DEFAULT_SHEET,
      moments: revealedMoments({ call: null, reveal: { toldS: 80 } }, MICRON),
      speech: MICRON,
      view: null,
    });
    expect(firstPumpOnS(marks)).toBe(20);
    expect(time.originS).toBe(20);
    expect(time.fromS).toBeLessThan(20);
    expect(time.toS).toBeGreaterThan(599);
    expect(flags.map(({ label }) => label)).toEqual([
      '0:00 pump on',
      '1:00 it told from here',
      '4:40 pump on',
    ]);
  });

  test('without a start of the pump it counts from the first reading', () => {
    expect(firstPumpOnS([mark('isolated', 7)])).toBe(0);
  });
});

describe('what a page knows of a rehearsal', () => {
  const call = { trainee: 'Ines', cause: 'leak', surePercent: 60, elapsedS: 9 } as const;

  test('is that of this recording and of no other', () => {
    keepRehearsed(recording(3), { call });
    expect(rehearsedOf(recording(3)).call).toEqual(call);
    expect(rehearsedOf(recording(4)).call).toBeNull();
    // The same number in another data folder.
    expect(rehearsedOf(recording(3, 'rehearsal', 2)).call).toBeNull();
  });

  test('is added to, and begins anew with the next', () => {
    keepRehearsed(recording(5), { call });
    keepRehearsed(recording(5), { wish: { name: 'quay', rate: 5, helper: false, seed: 7 } });
    expect(rehearsedOf(recording(5))).toMatchObject({ call, wish: { seed: 7 } });
    keepRehearsed(recording(6), { reveal: null });
    expect(rehearsedOf(recording(6)).call).toBeNull();
  });

  test('only the latest rehearsal can still be called', () => {
    const all = [recording(1), recording(2), recording(3, 'sensor')];
    expect(all.map((one) => isLatestRehearsal(one, all))).toEqual([false, true, false]);
  });
});
