/** The languages beside each other: nothing left in English, nothing lost, and each with its own numbers. */
import { describe, expect, test } from 'vitest';
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { paFromMicron } from '../../../protocol/units.ts';
import { ALL_SCENARIOS } from '../../../simulators/scenarios/all-scenarios.ts';
import { textsFromSheet } from '../../../web/sheet/sheet-form.ts';
import { readTyped } from '../../../web/typed-in/typed-form.ts';
import { english } from '../../../web/words/english.ts';
import { sayDurationBetween } from '../../../web/words/say-duration.ts';
import { sayFailure } from '../../../web/words/say-failure.ts';
import { sayForecast } from '../../../web/words/say-forecast.ts';
import { sayMagnitude } from '../../../web/words/say-magnitude.ts';
import { sayNumber } from '../../../web/words/say-number.ts';
import { sayPressure, saySetting } from '../../../web/words/say-pressure.ts';
import { sayPlace } from '../../../web/words/say-rehearsal.ts';
import { sayTemperature } from '../../../web/words/say-temperature.ts';
import { sayVerdict } from '../../../web/words/say-verdict.ts';
import { spanish } from '../../../web/words/spanish.ts';
import { speechOf } from '../../../web/words/speech-of.ts';
import { MICRON } from '../../support/english-speech.ts';
import { conclusionsWith, forecastWith, micron, riseWith } from './invented-conclusions.ts';

const EN = speechOf('en', { pressure: 'micron', temperature: '°C' });
const ES = speechOf('es', { pressure: 'micron', temperature: '°C' });
const ES_MBAR = speechOf('es', { pressure: 'mbar', temperature: '°C' });

/** Every entry by its path, a function as what it says of values that stand for themselves. */
function entries(entry: unknown, path = ''): [string, string][] {
  if (typeof entry === 'string') return [[path, entry]];
  if (typeof entry === 'function') {
    return [2, 1].map((count) => {
      return [`${path}(${count})`, String(Reflect.apply(entry, undefined, [named(count)]))];
    });
  }
  if (typeof entry !== 'object' || entry === null) return [];
  return Object.entries(entry).flatMap(([key, value]) => entries(value, `${path}.${key}`));
}

/** Whatever is asked for is given by its name in braces, and `count` as a number. */
function named(count: number): object {
  return new Proxy({}, { get: (_, name) => (name === 'count' ? count : `{${String(name)}}`) });
}

/** Signs, names of standards and of files, and words that both languages have. */
const SAME = new Set([
  'Bluetooth',
  'Pa',
  'mbar',
  'Torr',
  'inHg',
  'Sensor',
  'gas',
  'Firmware',
  'Radio',
  'A4',
  'CSV',
  'CSV {number}',
  'JSON',
  'UFGS-15182, 3.3.3',
  'ASHRAE Guideline 3',
  'ASHRAE 15.2',
  'EN 378-2, ISO 5149-2',
  '{part} {percent} %',
  '{chance}{why}.',
  '{sentence} ({figures}).',
  '{name}: {why}',
  '',
]);

describe('Spanish', () => {
  const [inEnglish, inSpanish] = [new Map(entries(english)), new Map(entries(spanish))];

  test('has every entry of English, lists as long among them', () => {
    expect([...inSpanish.keys()]).toEqual([...inEnglish.keys()]);
    expect(inSpanish.size).toBeGreaterThan(900);
  });

  test('says nothing as English says it, but for signs and names', () => {
    const same = [...inEnglish].filter(([path, text]) => inSpanish.get(path) === text);
    expect(same.filter(([, text]) => !SAME.has(text))).toEqual([]);
    expect(SAME.size).toBe(new Set(same.map(([, text]) => text)).size);
  });

  test('places the values that English places, and is silent where English is', () => {
    const values = (text = '') => [...new Set(text.match(/\{\w+\}/gu) ?? [])].sort();
    for (const [path, text] of inEnglish) {
      expect(values(inSpanish.get(path)), path).toEqual(values(text));
      expect(inSpanish.get(path) === '', path).toBe(text === '');
    }
  });

  test('leaves commands and file names as they are typed', () => {
    const typed =
      /npm start(?: -- --\w+ \w+)?|sudo [^\n"”]+?\)\)|bluetoothctl [a-z ]+|rfkill [a-z ]+|node_modules/gu;
    for (const [path, text] of inEnglish) {
      expect(inSpanish.get(path)?.match(typed) ?? [], path).toEqual(text.match(typed) ?? []);
    }
  });

  test('has the marks that Spanish sentences begin with', () => {
    for (const [path, text] of inSpanish) {
      expect(text.split('¿').length, path).toBe(text.split('?').length);
      // A street's invented name stays as it is.
      expect(text.replace('Saddler’s Yard', ''), path).not.toMatch(/[“”’]/u);
    }
  });
});

test('the page says a problem as API and terminal do, in English', async () => {
  const { PROBLEMS } = await import('../../../protocol/problems.ts');
  expect(english.problems).toEqual(PROBLEMS);
  const failure = { code: 'bad_readings_file', detail: 'line 3: no number' } as const;
  const { meaning, remedy } = PROBLEMS.bad_readings_file;
  expect(sayFailure(failure, MICRON)).toBe(`${meaning} (line 3: no number) ${remedy}`);
  expect(sayFailure({ code: 'no_effect', detail: '', action: 'pump_on' }, MICRON)).toContain(
    'pump is on already',
  );
});

describe('numbers', () => {
  test.each([
    [612.4, '612', '612'],
    [6124, '6120', '6120'],
    [61_240, '61\u00a0200', '61\u00a0200'],
    [0.61249, '0.612', '0,612'],
    [-17.31, '−17.3', '−17,3'],
    [Number.NaN, 'unknown', 'desconocido'],
  ])('%d is %s and %s', (value, inEnglish, inSpanish) => {
    expect(sayNumber(value, EN)).toBe(inEnglish);
    expect(sayNumber(value, ES)).toBe(inSpanish);
  });

  test('with units, powers of ten and settings', () => {
    expect(sayPressure(paFromMicron(612), ES)).toBe('612 micrones');
    expect(saySetting(paFromMicron(1), ES)).toBe('1 micrón');
    expect(saySetting(paFromMicron(1.5), ES)).toBe('1,5 micrones');
    expect(sayPressure(paFromMicron(612), ES_MBAR)).toBe('0,816 mbar');
    expect(sayMagnitude(2.1e-4, ES)).toBe('2,1·10⁻⁴');
    expect(sayTemperature(-17.4, ES)).toBe('−17 °C');
  });

  test('stand in a form so that they can be read back', () => {
    const texts = textsFromSheet(DEFAULT_SHEET, ES_MBAR);
    expect(texts.targetPa).toBe('0,666612');
    const typed = { pressure: texts.targetPa, when: ' Ahora ', temperature: '' };
    const read = readTyped(typed, ES_MBAR, 0);
    if (!read.ok) throw new Error(read.wrong);
    expect(read.reading.pressurePa).toBeCloseTo(DEFAULT_SHEET.targetPa, 3);
    expect(read.reading.agoS).toBe(0);
  });
});

describe('conclusions in Spanish', () => {
  test('a forecast with its interval', () => {
    const forecast = forecastWith();
    const { headline, sure } = sayForecast(
      forecast,
      conclusionsWith({ forecast }),
      DEFAULT_SHEET,
      ES,
    );
    expect(headline).toBe('500 micrones en aprox. 3 min');
    expect(sure).toBe('entre 2 y 5 min');
    expect(sayDurationBetween(120, null, ES)).toBe('al menos 2 min, sin límite superior');
  });

  test('a verdict with its rate', () => {
    const { headline, sure } = sayVerdict(riseWith({ leakPaPerS: rate() }), ES);
    expect(headline).toBe('Fuga y humedad');
    expect(sure).toBe('entrada 3,8 (3,4 a 4,2) micrones/min');
  });

  const rate = () => {
    const { estimate, low, high } = micron(3.8, 3.4, 4.2);
    return { estimate: estimate / 60, low: low / 60, high: high / 60 };
  };
});

test('two speeches at once do not touch each other', () => {
  const pressurePa = paFromMicron(0.5);
  expect([
    sayPressure(pressurePa, EN),
    sayPressure(pressurePa, ES),
    sayPressure(pressurePa, EN),
  ]).toEqual(['0.500 micron', '0,500 micrones', '0.500 micron']);
});

describe('a rehearsal’s place', () => {
  const cards = ALL_SCENARIOS.map(({ card }) => card);

  test('is said in each language, in English as the card says it', () => {
    for (const { name, place } of cards) {
      expect(sayPlace(name, EN)).toBe(place);
      expect(sayPlace(name, ES), name).not.toBeNull();
      expect(sayPlace(name, ES), name).not.toBe(place);
    }
    for (const { rehearse } of [english, spanish]) {
      expect(Object.keys(rehearse.places).sort()).toEqual(cards.map(({ name }) => name).sort());
    }
  });

  test('keeps its invented name, as far as it has one', () => {
    const named = cards.flatMap(({ name, place }) => {
      // What follows the first word, and begins with a capital: 'Station Road'.
      const [street] = /(?<=.)[A-Z][\p{L}’]+(?: [A-Z][\p{L}’]+)+/u.exec(place.slice(1)) ?? [];
      return street === undefined ? [] : [{ name, street }];
    });
    expect(named.length).toBeGreaterThan(15);
    for (const { name, street } of named) expect(sayPlace(name, ES)).toContain(street);
  });
});
