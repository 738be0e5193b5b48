/** The printed curve: what was measured, what was not, and the names of things. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import type { Mark } from '../../../protocol/mark.ts';
import type { Reading } from '../../../protocol/reading.ts';
import { paFromMicron } from '../../../protocol/units.ts';
import type { Conclusions } from '../../../web/analysis/conclusions.ts';
import { GapFinder } from '../../../web/analysis/readings/gap-finder.ts';
import { drawFigure } from '../../../web/figure/draw-figure.ts';
import { figureOf } from '../../../web/figure/figure-of.ts';
import { markup } from '../../../web/figure/markup.ts';
import { brokenPole } from '../../../web/figure/broken-pole.ts';
import { placeFlags } from '../../../web/figure/place-flags.ts';
import type { ChartTime } from '../../../web/figure/time-range.ts';
import { ThinnedCurve } from '../../../web/figure/thinned-curve.ts';
import { english } from '../../../web/words/english.ts';
import type { Speech } from '../../../web/words/speech.ts';
import { speechOf } from '../../../web/words/speech-of.ts';
import { recordedReading } from '../../support/recorded-readings.ts';
import { inRise } from '../web/invented-conclusions.ts';
import { MICRON } from '../../support/english-speech.ts';

interface Change {
  readonly marks?: readonly Mark[];
  readonly ground?: string;
  readonly title?: string;
  readonly points?: boolean;
  readonly speech?: Speech;
  readonly conclusions?: Conclusions;
  readonly time?: ChartTime;
}

function figure(readings: readonly Reading[], change: Change = {}): string {
  const curve = new ThinnedCurve();
  const gaps = new GapFinder();
  for (const reading of readings) {
    curve.insert(reading);
    gaps.insert(reading);
  }
  const last = readings.at(-1)?.elapsedS ?? 60;
  const picture = figureOf({
    id: 'test',
    title: 'A curve',
    curve,
    gaps: gaps.gaps(),
    marks: [],
    sheet: DEFAULT_SHEET,
    conclusions: null,
    speech: MICRON,
    time: { axis: 'log', originS: 0, fromS: 0, toS: last },
    ground: '',
    points: false,
    ...change,
  });
  return drawFigure(picture).text;
}

const minute = Array.from({ length: 61 }, (_, at) =>
  recordedReading(at, { pressurePa: 1000 - at }),
);

test('a second row of the legend makes the figure higher', () => {
  const height = (svg: string) => Number(/viewBox="0 0 720 ([\d.]+)"/u.exec(svg)?.[1]);
  const lowest = (svg: string) =>
    Math.max(...[...svg.matchAll(/translate\([\d.]+ ([\d.]+)\)/gu)].map(([, y]) => Number(y)));
  const holed = minute.filter(({ sequence }) => sequence < 20 || sequence > 40);
  const beyond = holed.map((reading, at) => {
    if (at < 5) return { ...reading, pressurePa: null, condition: 'over_range' as const };
    return at > 30 ? { ...reading, condition: 'under_range' as const } : reading;
  });
  const speech = speechOf('es', MICRON.units);
  const tall = figure(beyond, { speech, conclusions: inRise() });
  expect(height(figure(minute))).toBe(400);
  expect(height(tall)).toBeGreaterThan(lowest(tall) + 4);
  expect(height(tall)).toBeGreaterThan(400);
});

/** What is drawn, without the legend that names it. */
const plane = (svg: string): string => svg.split('class="legend"')[0] ?? '';

/** The x coordinates of each measured line, from left to right. */
function measuredLines(svg: string): number[][] {
  return [...svg.matchAll(/class="measured" d="([^"]*)"/gu)].map(([, path = '']) =>
    [...path.matchAll(/([\d.]+) [\d.]+/gu)].map(([, x]) => Number(x)),
  );
}

describe('gaps', () => {
  test('whole readings are one line', () => {
    expect(measuredLines(figure(minute))).toHaveLength(1);
  });

  test('a gap is not joined: a line ends before it, another begins after it', () => {
    const svg = figure(minute.filter(({ elapsedS }) => elapsedS <= 20 || elapsedS >= 40));
    const lines = measuredLines(svg);
    expect(lines).toHaveLength(2);
    const [before = [], after = []] = lines;
    const whole = measuredLines(figure(minute))[0] ?? [];
    expect(Math.max(...before)).toBeCloseTo(whole[20] ?? 0, 6);
    expect(Math.min(...after)).toBeCloseTo(whole[40] ?? 0, 6);
    expect(plane(svg)).toContain('class="gap"');
    expect(svg).toContain(english.chart.stretches.gap);
  });

  test('a reading from the sensor’s own store that comes late closes it', () => {
    const late = minute.filter(({ elapsedS }) => elapsedS > 20 && elapsedS < 40);
    const rest = minute.filter((reading) => !late.includes(reading));
    expect(measuredLines(figure([...rest, ...late].concat()))).toHaveLength(1);
  });

  test('a fault breaks the line, though nothing is missing', () => {
    const faulty = minute.map((reading) =>
      reading.elapsedS === 30
        ? { ...reading, pressurePa: null, condition: 'fault' as const }
        : reading,
    );
    expect(measuredLines(figure(faulty))).toHaveLength(2);
  });
});

describe('beyond the sensor’s range', () => {
  const over = minute.map((reading) =>
    reading.elapsedS < 10
      ? { ...reading, pressurePa: null, condition: 'over_range' as const }
      : reading,
  );

  test('over range shows, in a sign and in words, and is no part of the line', () => {
    const svg = figure(over);
    expect(plane(svg)).toContain('class="over"');
    expect(svg).toContain(english.chart.stretches.over_range);
    expect(measuredLines(svg)[0]).toHaveLength(51);
    expect(figure(minute)).not.toContain(english.chart.stretches.over_range);
  });

  test('zero can’t stand on a logarithmic axis and is said to be below the range', () => {
    const svg = figure(minute.map((reading) => ({ ...reading, pressurePa: 0 })));
    expect(plane(svg)).toContain('class="under"');
    expect(svg).toContain(english.chart.stretches.under_range);
    expect(svg).not.toMatch(/NaN|Infinity/u);
  });

  test('without any reading the axes are drawn all the same', () => {
    expect(figure([])).not.toMatch(/NaN|Infinity|class="measured"/u);
  });
});

describe('words in the figure', () => {
  test('limits are named in the unit of choice', () => {
    expect(figure(minute)).toContain('>target 500</text>');
  });

  test('a rehearsal’s ground says so', () => {
    expect(figure(minute, { ground: 'Rehearsal' })).toContain('>Rehearsal</text>');
  });

  test('a rise has its fitted curve and its band, told apart from what was measured', () => {
    const point = (elapsedS: number, pa: number) => ({
      elapsedS,
      lowPa: pa * 0.9,
      midPa: pa,
      highPa: pa * 1.1,
    });
    const conclusions = inRise({ sinceS: 0, curve: [point(0, 30), point(900, 60)] });
    const curve = new ThinnedCurve();
    for (const reading of minute) curve.insert({ ...reading, pressurePa: paFromMicron(300) });
    const picture = figureOf({
      id: 'test',
      title: 'A hold',
      curve,
      gaps: [],
      marks: [],
      sheet: DEFAULT_SHEET,
      conclusions,
      speech: MICRON,
      time: { axis: 'linear', originS: 0, fromS: 0, toS: 900 },
      ground: '',
      points: false,
    });
    const svg = drawFigure(picture).text;
    expect(svg).toContain('class="band"');
    expect(svg).toMatch(/class="fit"[^>]*stroke-dasharray="9 6"/u);
    expect(svg).toContain(english.chart.key.fitted);
    expect(svg).toContain('rule: 500 after 15 min');
  });

  test('a hold that was broken with nitrogen shows its rise, and not the way up to the air', () => {
    const conclusions: Conclusions = { ...inRise({ sinceS: 0, curve: [] }), nowS: 50 };
    const broken = Array.from({ length: 61 }, (_, at) =>
      recordedReading(at, {
        pressurePa: paFromMicron(at <= 50 ? 300 + at : 300 * 1.6 ** (at - 50)),
      }),
    );
    const time = { axis: 'linear', originS: 0, fromS: 0, toS: 61 } as const;
    const ticks = [...figure(broken, { conclusions, time }).matchAll(/>(\d[\d\u00a0]*)<\/text>/gu)];
    const highest = Math.max(
      ...ticks.map(([, label = '']) => Number(label.replaceAll('\u00a0', ''))),
    );
    expect(highest).toBeLessThanOrEqual(1000);
  });

  test('a mark’s remark is text, whatever it is', () => {
    const text = '</text><script>alert(1)</script>';
    const svg = figure(minute, {
      marks: [{ id: 1, kind: 'note', elapsedS: 30, text, madeBy: 'hand' }],
    });
    expect(svg).not.toContain('<script');
    expect(svg).toContain('&lt;/text&gt;&lt;script&gt;');
  });

  test('labels keep clear of a place that is taken', () => {
    const wish = { x: 10, width: 50 };
    expect(placeFlags([wish], 500, 2, [{ row: 0, from: 40, to: 100 }])[0]?.row).toBe(1);
  });
});

describe('thinning', () => {
  test('the same readings in any order give the same line', () => {
    const readings = fc.array(fc.double({ min: 1, max: 1e5, noNaN: true }), { minLength: 1 });
    fc.assert(
      fc.property(readings, (pressures) => {
        const forward = new ThinnedCurve();
        const backward = new ThinnedCurve();
        const all = pressures.map((pressurePa, at) => recordedReading(at, { pressurePa }));
        for (const reading of all) forward.insert(reading);
        for (const reading of [...all].reverse()) backward.insert(reading);
        const range = { fromS: 0, toS: 50 };
        expect(backward.drawn(range, []).pieces).toEqual(forward.drawn(range, []).pieces);
      }),
    );
  });

  test('a long recording is a bounded number of places, and no spike is lost', () => {
    const curve = new ThinnedCurve();
    for (let at = 0; at < 200_000; at += 1) {
      curve.insert(recordedReading(at, { pressurePa: at === 123_456 ? 9000 : 100 + (at % 7) }));
    }
    const { pieces } = curve.drawn({ fromS: 0, toS: 200_000 }, []);
    expect(pieces).toHaveLength(1);
    const places = pieces.flat();
    expect(places.length).toBeLessThan(1500);
    expect(places).toContainEqual({ elapsedS: 123_456, pressurePa: 9000 });
  });
});

test('what is put into markup is text, character for character', () => {
  const signs: Readonly<Record<string, string>> = {
    '&lt;': '<',
    '&gt;': '>',
    '&quot;': '"',
    '&#39;': "'",
    '&amp;': '&',
  };
  const texts = fc.string({
    unit: fc.constantFrom('<', '>', '&', '"', "'", ';', 'l', 't', 'a', 'ü'),
  });
  fc.assert(
    fc.property(texts, (text) => {
      const written = markup`${text}`.text;
      expect(written).not.toMatch(/[<>"']/u);
      expect(written.replaceAll(/&(?:lt|gt|quot|amp|#39);/gu, (sign) => signs[sign] ?? '')).toBe(
        text,
      );
    }),
  );
});

describe('a flag’s pole', () => {
  const name = { left: 80, right: 120, top: 40, bottom: 60 };

  test('stands behind a name, and beside it is whole', () => {
    expect(brokenPole({ x: 100, top: 10, bottom: 90 }, [name])).toEqual([
      [10, 40],
      [60, 90],
    ]);
    expect(brokenPole({ x: 121, top: 10, bottom: 90 }, [name])).toEqual([[10, 90]]);
  });

  test('behind names that touch, at its foot or at its top it is never drawn twice or upside down', () => {
    const below = { ...name, top: 55, bottom: 95 };
    expect(brokenPole({ x: 100, top: 10, bottom: 90 }, [below, name])).toEqual([[10, 40]]);
    expect(brokenPole({ x: 100, top: 50, bottom: 90 }, [name])).toEqual([[60, 90]]);
    expect(brokenPole({ x: 100, top: 70, bottom: 90 }, [name])).toEqual([[70, 90]]);
    expect(brokenPole({ x: 100, top: 10, bottom: 30 }, [name])).toEqual([[10, 30]]);
  });
});
