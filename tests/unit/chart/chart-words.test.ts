/** What the chart says: at a moment, of the whole curve, in its key, and with a saved picture. */
import { describe, expect, test } from 'vitest';
import type { Reading } from '../../../protocol/reading.ts';
import type { Origin } from '../../../protocol/recording.ts';
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { paFromMicron } from '../../../protocol/units.ts';
import { chartOf } from '../../../web/chart/chart-of.ts';
import type { ChartPicture } from '../../../web/chart/chart-picture.ts';
import { countedFrom } from '../../../web/chart/counted-from.ts';
import { cursorAt } from '../../../web/chart/cursor-at.ts';
import { figureFrom, sentenceOf } from '../../../web/chart/figure-from.ts';
import { keyItems } from '../../../web/chart/key-items.ts';
import { stretchLanes, takenAt } from '../../../web/chart/stretch-lanes.ts';
import { tableRows } from '../../../web/chart/table-rows.ts';
import { captionedFigure } from '../../../web/figure/captioned.ts';
import { ChannelCurve } from '../../../web/store/channel-curve.ts';
import { ChannelReadings } from '../../../web/store/channel-readings.ts';
import { sayCursor, sayCursorAloud } from '../../../web/words/say-cursor.ts';
import { sayCaption, sayFileName } from '../../../web/words/say-export.ts';
import { recordedReading } from '../../support/recorded-readings.ts';
import { conclusionsWith, inRise } from '../web/invented-conclusions.ts';
import { englishIn, MICRON } from '../../support/english-speech.ts';

type Change = (at: number) => Partial<Reading>;

function recordingOf(origin: Origin): Parameters<typeof chartOf>[0]['recording'] {
  return { id: 1, origin, startedAtMs: 0, takenFrom: null, sensors: [] };
}

function curveOf(many: number, change: Change): ChannelCurve {
  const curve = new ChannelCurve(new ChannelReadings(0));
  const readings = Array.from({ length: many }, (_, at) => recordedReading(at, change(at)));
  curve.insert(curve.readings.insert(readings));
  return curve;
}

/** Falls from 10 000 to 100 micron by the same factor a second, 200 s long. */
const falling: Change = (at) => ({ pressurePa: paFromMicron(10_000 * 10 ** (-at / 100)) });

function pictureOf(curve: ChannelCurve, change: Partial<Parameters<typeof chartOf>[0]> = {}) {
  return chartOf({
    curve,
    name: '',
    beside: () => [],
    marks: [],
    sheet: DEFAULT_SHEET,
    conclusions: null,
    speech: MICRON,
    recording: { id: 12, origin: 'sensor', startedAtMs: 0, takenFrom: null, sensors: [] },
    expected: null,
    behind: [],
    live: true,
    foresees: true,
    moments: [],
    view: null,
    ...change,
  });
}

const said = (picture: ChartPicture, atS: number, pixelS: number) => {
  const facts = cursorAt(picture, atS, pixelS);
  return sayCursor(facts, countedFrom(picture.time, facts.atS), picture.speech);
};

describe('at a moment', () => {
  const picture = pictureOf(curveOf(201, falling));

  test('it says the reading that is nearest, in the unit of choice', () => {
    // 1000 micron are 133.3 Pa, at which ice sublimes at −17 °C (IAPWS R14-08).
    expect(said(picture, 100.3, 0.1)).toMatchObject({
      pressure: '1000 micron',
      since: '1:40 into the recording',
      boils: 'water boils at \u221217 °C',
    });
    const inPa = pictureOf(curveOf(201, falling), {
      speech: englishIn({ pressure: 'Pa', temperature: '°F' }),
    });
    expect(said(inPa, 100, 0.1)).toMatchObject({
      pressure: '133 Pa',
      boils: 'water boils at 1 °F',
    });
  });

  test('a pixel that holds more says the lowest and the highest', () => {
    expect(said(picture, 100, 8.2).pressure).toBe('912 to 1100 micron');
  });

  test('ahead of the present it says what is foreseen', () => {
    const point = (elapsedS: number, micron: number) => ({
      elapsedS,
      lowPa: paFromMicron(micron * 0.8),
      midPa: paFromMicron(micron),
      highPa: paFromMicron(micron * 1.2),
    });
    const coming = { ...picture, curve: [point(200, 100), point(300, 50)] };
    expect(said(coming, 250, 0.1)).toMatchObject({
      pressure: 'about 75.0 micron',
      notes: 'forecast: between 60 and 90',
    });
    expect(said(picture, 250, 0.1).pressure).toBe('still to come');
  });

  test('where nothing was measured it says why', () => {
    const holes = curveOf(201, (at) => {
      if (at < 50) return { pressurePa: null, condition: 'over_range' };
      if (at < 100) return { pressurePa: null, condition: 'fault' };
      const place = at < 150 ? at : at + 500;
      return { elapsedS: place, sequence: place, condition: 'warming_up' };
    });
    const drawn = pictureOf(holes);
    expect(said(drawn, 20, 0.1)).toMatchObject({ pressure: 'above the sensor’s range', boils: '' });
    expect(said(drawn, 70, 0.1).pressure).toBe('sensor fault');
    expect(said(drawn, 120, 0.1).notes).toBe('sensor warming up');
    expect(said(drawn, 400, 0.1).pressure).toBe('no readings');
  });

  test('other sensors are named, and ears hear all of it', () => {
    const other = curveOf(201, (at) => ({ ...falling(at), condition: 'ok' }));
    const two = pictureOf(curveOf(201, falling), {
      name: 'roof',
      beside: (range) => [{ name: 'cellar', curve: other, series: other.drawn(range) }],
    });
    const words = said(two, 100, 0.1);
    expect(words.beside).toEqual(['cellar 1000 micron']);
    expect(sayCursorAloud(words, '14:05:09')).toBe(
      '1000 micron. 1:40 into the recording. 14:05:09. water boils at \u221217 °C. cellar 1000 micron',
    );
  });

  test('in a rise it counts from valve-off, and before it too', () => {
    const rise = { axis: 'linear', originS: 100, fromS: 90, toS: 900 } as const;
    const words = (atS: number) =>
      sayCursor(cursorAt(picture, atS, 0.1), countedFrom(rise, atS), MICRON).since;
    expect(words(165)).toBe('1:05 after valve-off');
    expect(words(95)).toBe('0:05 before valve-off');
  });
});

describe('the whole curve', () => {
  test('is a sentence with its ends, its target and what is concluded', () => {
    const curve = curveOf(201, falling);
    expect(sentenceOf(pictureOf(curve, { conclusions: conclusionsWith() }))).toBe(
      'The pressure falls from 10\u00a0000 to 100 micron in 3 min 20 s. ' +
        'It ends below the target of 500 micron. 500 micron in about 3 min.',
    );
    expect(sentenceOf(pictureOf(curve, { view: { kind: 'stay', fromS: 0, toS: 100 } }))).toBe(
      'The pressure falls from 10\u00a0000 to 1000 micron in 1 min 40 s. ' +
        'It ends above the target of 500 micron.',
    );
  });

  test('says a dip, a stretch without readings, a rehearsal, and a verdict', () => {
    const dip = curveOf(200, (at) => {
      const place = at < 100 ? at : at + 300;
      return { elapsedS: place, sequence: place, pressurePa: paFromMicron(at === 60 ? 200 : 400) };
    });
    const rehearsal = recordingOf('rehearsal');
    expect(sentenceOf(pictureOf(dip, { recording: rehearsal }))).toBe(
      'Rehearsal. The pressure stays near 400 micron for 8 min 19 s, with its lowest, 200 micron, ' +
        'after 1 min. It ends below the target of 500 micron. Stretches marked: no readings.',
    );
    const rise = curveOf(1400, (at) => ({ pressurePa: paFromMicron(Math.max(250, at / 2)) }));
    expect(sentenceOf(pictureOf(rise, { conclusions: inRise() }))).toBe(
      'The pressure rises from 491 to 700 micron in 6 min 57 s. ' +
        'It ends above the limit of 500 micron. Leak and moisture.',
    );
    expect(sentenceOf(pictureOf(curveOf(0, falling)))).toBe('Nothing measured is in the picture.');
  });

  test('is a table of eleven rows, from the first to the last reading shown', () => {
    const rows = tableRows(pictureOf(curveOf(201, falling)));
    expect(rows.map(({ time }) => time)).toEqual([
      '0:00',
      '0:20',
      '0:40',
      '1:00',
      '1:20',
      '1:40',
      '2:00',
      '2:20',
      '2:40',
      '3:00',
      '3:20',
    ]);
    expect(rows[0]?.pressure).toBe('10\u00a0000 micron');
    expect(rows[10]).toMatchObject({ pressure: '100 micron', boils: '\u221240 °C' });
    expect(tableRows(pictureOf(curveOf(0, falling)))).toEqual([]);
  });
});

describe('the key', () => {
  test('names just what is in the picture, and stretches once', () => {
    const curve = curveOf(300, (at) =>
      at % 100 < 50 ? {} : { pressurePa: null, condition: 'over_range' },
    );
    const signs = (picture: ChartPicture) => keyItems(picture).map(({ sign }) => sign);
    expect(signs(pictureOf(curve))).toEqual(['measured', 'over_range']);
    expect(signs(pictureOf(curve, { view: { kind: 'stay', fromS: 99.5, toS: 140 } }))).toEqual([
      'measured',
    ]);
    expect(signs(pictureOf(curveOf(0, falling)))).toEqual([]);
    const typed = recordingOf('typed_in');
    expect(signs(pictureOf(curveOf(5, falling), { recording: typed }))).toEqual(['typed_in']);
  });

  test('strips of one edge stand beside one another', () => {
    const lanes = stretchLanes([
      { kind: 'late', fromS: 0, toS: 1 },
      { kind: 'gap', fromS: 1, toS: 2 },
      { kind: 'under_range', fromS: 2, toS: 3 },
      { kind: 'late', fromS: 3, toS: 4 },
    ]);
    expect(lanes.map(({ kind }) => kind)).toEqual(['under_range', 'late']);
    const [first, second] = lanes;
    expect(second?.offset).toBeGreaterThanOrEqual((first?.offset ?? 0) + (first?.height ?? 0));
    expect(takenAt('top', lanes)).toBe(0);
    expect(takenAt('bottom', lanes)).toBe((second?.offset ?? 0) + (second?.height ?? 0));
  });
});

describe('a saved picture', () => {
  const about = {
    site: 'Quayside Bakery, Łódź <2>',
    equipment: 'cold room 2',
    recordingId: 12,
    origin: 'sensor',
    sensors: ['roof', 'cellar'],
  } as const;

  test('says job, sensors, time and unit above it', () => {
    const clock = {
      from: { day: '26 Nov 2026', time: '10:41' },
      to: { day: '26 Nov 2026', time: '10:53' },
    };
    expect(sayCaption(about, { fromS: 0, toS: 720, clock }, MICRON)).toEqual([
      'Job: Quayside Bakery, Łódź <2>, cold room 2',
      'roof, cellar · 26 Nov 2026, 10:41 to 10:53 · absolute pressure in micron',
    ]);
    const rehearsed = {
      ...about,
      site: '',
      equipment: '',
      origin: 'rehearsal',
      sensors: [''],
    } as const;
    expect(
      sayCaption(rehearsed, { fromS: 60, toS: 720, clock: null }, englishIn({ pressure: 'Pa' })),
    ).toEqual([
      'Rehearsal on a simulated system, not a job',
      '1:00 to 12:00 of recording 12 · absolute pressure in Pa',
    ]);
  });

  test('has a file name of the site alone, which any system takes', () => {
    expect(sayFileName(about, 'svg')).toBe('quayside-bakery-łodz-2-recording-12-pressure.svg');
    expect(sayFileName({ ...about, site: ' ../.. ' }, 'png')).toBe('recording-12-pressure.png');
    const rehearsed = { ...about, site: '', origin: 'rehearsal' } as const;
    expect(sayFileName(rehearsed, 'png')).toBe('rehearsal-12-pressure.png');
  });

  test('draws what the chart shows, rehearsal and late readings among it, and escapes words', () => {
    const late = curveOf(300, (at) => {
      const place = at < 100 ? at : at < 200 ? at + 100 : at - 100;
      return { elapsedS: place, sequence: place };
    });
    const rehearsal = recordingOf('rehearsal');
    const picture = pictureOf(late, { recording: rehearsal });
    const { svg, width, height } = captionedFigure(figureFrom(picture), ['<b>', 'x']);
    expect(svg).toContain('>Rehearsal</text>');
    expect(svg).toContain('class="late"');
    expect(svg).toContain('&lt;b&gt;');
    expect(svg).not.toContain('NaN');
    expect(svg).toContain(`viewBox="0 0 ${width} ${height}"`);
    expect(figureFrom(picture).curve.pieces).toHaveLength(1);
  });
});
