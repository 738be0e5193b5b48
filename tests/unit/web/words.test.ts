/** Numbers, times and conclusions as a person reads them. */
import { describe, expect, test } from 'vitest';
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { paFromMicron } from '../../../protocol/units.ts';
import { sayAlert } from '../../../web/words/say-alert.ts';
import {
  sayDuration,
  sayDurationBetween,
  sayMoment,
  sayRoughDuration,
} from '../../../web/words/say-duration.ts';
import { sayNotKept } from '../../../web/words/say-connection.ts';
import { sayForecast } from '../../../web/words/say-forecast.ts';
import { sayMark } from '../../../web/words/say-mark.ts';
import { sayNumber } from '../../../web/words/say-number.ts';
import { sayPressure, sayRateEstimate, saySetting } from '../../../web/words/say-pressure.ts';
import { sayRecord } from '../../../web/words/say-record.ts';
import { Terminal } from '../../../server/terminal.ts';
import { sayNotNow } from '../../../web/words/say-reading.ts';
import { speechOf } from '../../../web/words/speech-of.ts';
import { sayStage } from '../../../web/words/say-stage.ts';
import { sayTemperature } from '../../../web/words/say-temperature.ts';
import { sayTrend, trendWay } from '../../../web/words/say-trend.ts';
import { sayVerdict } from '../../../web/words/say-verdict.ts';
import { sayWithheld } from '../../../web/words/say-withheld.ts';
import { conclusionsWith, forecastWith, inRise, micron, riseWith } from './invented-conclusions.ts';
import { englishIn, MICRON } from '../../support/english-speech.ts';

describe('numbers', () => {
  test.each([
    [612.4, '612'],
    [6124, '6120'],
    [61_240, '61\u00a0200'],
    [1_000_000, '1\u00a0000\u00a0000'],
    [0.61249, '0.612'],
    [9.996, '10.0'],
    [0.02415, '0.0242'],
    [0, '0'],
    [-17.31, '−17.3'],
    [Number.NaN, 'unknown'],
  ])('%d is %s', (value, words) => {
    expect(sayNumber(value, MICRON)).toBe(words);
  });

  test('a pressure in each unit, with the digits that the unit needs', () => {
    const pa = paFromMicron(612);
    expect(sayPressure(pa, MICRON)).toBe('612 micron');
    expect(sayPressure(pa, englishIn({ pressure: 'Pa' }))).toBe('81.6 Pa');
    expect(sayPressure(pa, englishIn({ pressure: 'mbar' }))).toBe('0.816 mbar');
    expect(sayPressure(pa, englishIn({ pressure: 'Torr' }))).toBe('0.612 Torr');
    expect(sayPressure(pa, englishIn({ pressure: 'inHg' }))).toBe('0.0241 inHg');
  });

  test('what somebody set is said as it was set', () => {
    expect(saySetting(paFromMicron(5), MICRON)).toBe('5 micron');
    expect(saySetting(paFromMicron(500), MICRON)).toBe('500 micron');
    expect(saySetting(paFromMicron(1.5), MICRON)).toBe('1.5 micron');
  });

  test('an estimate never goes without its interval', () => {
    expect(sayRateEstimate(riseWith().leakPaPerS, MICRON)).toBe('38 (34 to 42) micron a minute');
  });

  test('temperatures', () => {
    expect(sayTemperature(-17.4, MICRON)).toBe('−17 °C');
    expect(sayTemperature(-17.4, englishIn({ temperature: '°F' }))).toBe('1 °F');
    expect(sayTemperature(-0.3, MICRON)).toBe('0 °C');
  });
});

describe('times', () => {
  test.each([
    [45.4, '45 s'],
    [59.7, '1 min'],
    [370, '6 min 10 s'],
    [7500, '2 h 5 min'],
  ])('%d s is %s', (seconds, words) => {
    expect(sayDuration(seconds)).toBe(words);
  });

  test.each([
    [2, '5 s'],
    [42, '40 s'],
    [185, '3 min'],
    [1600, '25 min'],
    [4800, '1 h 20 min'],
  ])('%d s is about %s', (seconds, words) => {
    expect(sayRoughDuration(seconds)).toBe(words);
  });

  test('an interval', () => {
    expect(sayDurationBetween(120, 300, MICRON)).toBe('between 2 and 5 min');
    expect(sayDurationBetween(40, 120, MICRON)).toBe('between 40 s and 2 min');
    expect(sayDurationBetween(3000, 7200, MICRON)).toBe('between 50 min and 2 h');
    expect(sayDurationBetween(170, 190, MICRON)).toBe('give or take less than a minute');
    expect(sayDurationBetween(120, null, MICRON)).toBe('at least 2 min, with no upper end');
  });

  test('a moment', () => {
    expect(sayMoment(185)).toBe('3:05');
    expect(sayMoment(3750)).toBe('1:02:30');
  });
});

describe('trend and stage', () => {
  test('falling in per cent, rising from isolation in pressure a minute', () => {
    expect(sayTrend(conclusionsWith(), MICRON)).toBe('falling, 6 % a minute');
    const rising = { ...inRise(), relativeRatePerS: 41 / 684 / 60, pressurePa: paFromMicron(684) };
    expect(sayTrend(rising, MICRON)).toBe('rising, 41 a minute');
  });

  test('steady, too fast for per cent, and unknown', () => {
    expect(sayTrend(conclusionsWith({ relativeRatePerS: -1e-5 }), MICRON)).toBe('steady');
    expect(sayTrend(conclusionsWith({ relativeRatePerS: -0.05 }), MICRON)).toBe('falling fast');
    expect(sayTrend(conclusionsWith({ relativeRatePerS: null }), MICRON)).toBe('');
  });

  test('its sign goes the way that its words say', () => {
    for (const relativeRatePerS of [-0.05, -0.001, -1e-5, 0, 1e-5, 0.001, 0.05]) {
      const conclusions = conclusionsWith({ relativeRatePerS });
      expect(sayTrend(conclusions, MICRON)).toMatch(new RegExp(`^${trendWay(conclusions)}`, 'u'));
    }
    expect(trendWay(conclusionsWith({ relativeRatePerS: null }))).toBeNull();
  });

  test('an isolation that nobody marked says where it comes from', () => {
    const stage = {
      name: 'rise',
      sinceS: 1000,
      recognisedBy: 'curve',
      alternatives: ['pump_stopped'],
    } as const;
    expect(sayStage(stage, 1370, MICRON)).toEqual({
      name: 'Rise',
      time: '6 min 10 s',
      known: 'seen in the curve, or the pump stands still',
    });
  });
});

function forecastWords(change: Parameters<typeof forecastWith>[0]) {
  const forecast = forecastWith(change);
  const said = sayForecast(forecast, conclusionsWith({ forecast }), DEFAULT_SHEET, MICRON);
  return { ...said, detail: said.detail.join(' ') };
}

describe('forecast', () => {
  test('one sentence with its interval, and the depth to valve off at', () => {
    const { headline, sure, detail } = forecastWords({});
    expect(headline).toBe('500 micron in about 3 min');
    expect(sure).toBe('between 2 and 5 min');
    expect(detail).toContain(
      '250 micron, the depth to valve off at, in about 11 min, between 8 and 16 min.',
    );
  });

  test('promises no middle where there is no upper end', () => {
    const remaining = { p10S: 120, p50S: 180, p90S: null };
    const { headline, sure, detail } = forecastWords({ remaining });
    expect(headline).toBe('500 micron in 2 min at the soonest');
    expect(sure).toBe('no upper end is known');
    expect(headline + sure + detail).not.toContain('3 min');
  });

  test('a boil-off is a reason and not a fate', () => {
    const { headline, sure, detail, tone } = forecastWords({
      causes: [{ cause: 'boil_off', weight: 0.8 }],
      remaining: { p10S: 120, p50S: 180, p90S: null },
    });
    expect(headline).toBe('Water is boiling off');
    expect(sure).toBe('500 micron in 2 min at the soonest');
    expect(detail).toContain('This ends, but without warning');
    expect(tone).toBe('calm');
  });

  test('levelling off says where, with its interval', () => {
    const { headline, sure, detail, tone } = forecastWords({
      outcome: 'levels_off',
      remaining: null,
      floorPa: micron(730, 700, 765),
    });
    expect(headline).toBe('Levels off near 730 micron');
    expect(sure).toBe('between 700 and 765 micron');
    expect(detail).toContain('It would not reach 500 micron');
    expect(tone).toBe('warning');
  });

  test('a forecast that started afresh says since when', () => {
    expect(forecastWords({ sinceS: 500 }).detail).toContain('From the last 1 min');
    expect(forecastWords({}).detail).not.toContain('From the last');
  });

  test('too early is an answer', () => {
    expect(forecastWords({ outcome: 'too_early', remaining: null }).headline).toMatch(
      /too early/iu,
    );
  });
});

const FITTED = [{ elapsedS: 0, lowPa: 30, midPa: 33, highPa: 36 }];

describe('verdict', () => {
  const words = (change: Parameters<typeof riseWith>[0]) => {
    const said = sayVerdict(riseWith({ curve: FITTED, ...change }), MICRON);
    return { ...said, detail: said.detail.join(' ') };
  };

  test('numbers with their intervals, and where it goes', () => {
    const { headline, sure, detail, tone } = words({});
    expect(headline).toBe('Leak and moisture');
    expect(sure).toBe('inflow 38 (34 to 42) micron/min');
    expect(detail).toContain('Steady inflow since 2 min 50 s.');
    expect(detail).toContain('Moisture gives 210 (190 to 230) micron');
    expect(detail).toContain('Will stand near 1030 (990 to 1070) micron after 15 min.');
    expect(tone).toBe('warning');
  });

  test('of a leak that a single hold shows, what tells it from gas given off evenly', () => {
    const advice = 'Repeat the hold after pumping: a leak rises as fast again.';
    for (const verdict of ['leak', 'leak_and_moisture'] as const) {
      expect(words({ verdict, earlierHolds: 0 }).detail).toContain(advice);
      expect(words({ verdict, earlierHolds: 1 }).detail).not.toContain(advice);
    }
    for (const verdict of ['tight_dry', 'moisture', 'undecided'] as const)
      expect(words({ verdict, earlierHolds: 0 }).detail).not.toContain(advice);
  });

  test('a pass speaks for the connected part only', () => {
    const { headline, tone } = words({ verdict: 'tight_dry', keepsRule: true });
    expect(headline).toBe('Tight and dry, for the connected part');
    expect(tone).toBe('good');
  });

  test('after the hold it stood, and without a fit nothing is foreseen', () => {
    expect(words({ heldS: 900 }).detail).toContain('Stood at 1030');
    expect(words({ curve: [] }).detail).not.toContain('1030');
  });

  test('undecided says why and how long', () => {
    const { headline, detail, tone } = words({
      verdict: 'undecided',
      reservations: ['too_early'],
      moreS: 240,
      keepsRule: null,
    });
    expect(headline).toBe('Undecided: another 4 min');
    expect(detail).toMatch(/^The curve does not tell leak and moisture apart yet\./u);
    expect(tone).toBe('calm');
  });

  test('undecided without an end in sight names none', () => {
    expect(words({ verdict: 'undecided', reservations: ['falling'] }).headline).toBe('Undecided');
  });
});

test('alerts name the value and the time', () => {
  const { title, detail } = sayAlert(
    { kind: 'target', atS: 185, sinceS: 5, targetPa: paFromMicron(500) },
    false,
    MICRON,
  );
  expect(title).toBe('500 micron reached');
  expect(detail).toContain('3:05 into the recording');
});

describe('an alert that a verdict changed', () => {
  const changed = { kind: 'verdict_changed', atS: 1228, sinceS: 1228 } as const;

  test('says of one that is withdrawn that it no longer stands, and what not to do on it', () => {
    const fact = { ...changed, verdict: 'undecided', before: 'tight_dry' } as const;
    expect(sayAlert(fact, false, MICRON)).toEqual({
      tone: 'warning',
      title: 'Verdict withdrawn: undecided',
      detail: 'Since 20:28 into the recording. It was tight and dry: do not close up on it.',
    });
  });

  test('names the new one, and the one before where that is known', () => {
    const fact = { ...changed, verdict: 'leak_and_moisture', before: 'moisture' } as const;
    const { title, detail } = sayAlert(fact, true, MICRON);
    expect(title).toBe('Verdict now: leak and moisture');
    expect(detail).toContain('Before: Moisture');
    expect(detail).not.toContain('close up');
    expect(sayAlert({ ...fact, before: null }, true, MICRON).detail).not.toContain('Before');
  });
});

test('what is withheld says since when, and what to do', () => {
  const said = sayWithheld(
    'sensor',
    '09:31:20',
    { text: 'Out of reach.', remedy: 'Come nearer.' },
    MICRON,
  );
  expect(said.sure).toBe('since 09:31:20');
  expect(said.detail.join(' ')).toContain('Come nearer.');
});

test('while nothing is kept no word says that the sensor is live, in any language', () => {
  for (const language of ['en', 'es'] as const) {
    const speech = speechOf(language, { pressure: 'micron', temperature: '°C' });
    const name = sayNotKept('Roof', '09:31', speech);
    expect(name).toMatch(/^Roof, .*09:31$/u);
    expect(name).not.toContain(speech.wording.connection.phases.live);
    expect(sayNotNow('not_kept', '09:31', speech)).toContain('09:31');
    const said = sayWithheld('record', '09:31', null, speech);
    expect(said.headline).not.toBe(sayWithheld('sensor', '09:31', null, speech).headline);
    expect(said.detail.length).toBe(2);
  }
});

test('of a full disk the page has words of its own, not those of the database', () => {
  const raw = 'database or disk is full';
  const held = { kind: 'held', sinceMs: 1, detail: raw, waiting: 7, refused: 0 } as const;
  const damaged = { kind: 'damaged', sinceMs: 1, detail: raw, file: 'beside' } as const;
  for (const language of ['en', 'es'] as const) {
    const speech = speechOf(language, { pressure: 'micron', temperature: '°C' });
    for (const state of [held, { ...held, refused: 3 }, damaged]) {
      const said = sayRecord(state, speech);
      expect(Object.values(said ?? {}).join(' ')).not.toContain(raw);
    }
    const problems = speech.wording.problems;
    expect(sayRecord(held, speech)?.remedy).toBe(problems.write_failed.remedy);
    const stalled = sayRecord({ ...held, kind: 'stalled' }, speech);
    expect(stalled).toMatchObject(problems.write_stalled);
    expect(stalled?.detail).toContain('7');
    expect(sayRecord(damaged, speech)?.detail).toContain('beside');
  }
  const lines: string[] = [];
  new Terminal((line) => lines.push(line)).record(held);
  expect(lines.join(' ')).toContain(raw);
});

test('a long note is cut to what a flag has room for', () => {
  const note = { kind: 'note', elapsedS: 1, text: 'x'.repeat(80), id: 1, madeBy: 'hand' } as const;
  expect(sayMark(note, MICRON)).toMatch(/^x{31}…$/u);
  expect(sayMark({ ...note, text: '' }, MICRON)).toBe('note');
});
