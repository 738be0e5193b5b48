/** What is said of calls, reveals, debriefs and scores. */
import { describe, expect, test } from 'vitest';
import { REHEARSAL_ACTIONS, REHEARSAL_CAUSES, type Reveal } from '../../../protocol/api.ts';
import { scenarioOfTitle, titleOfScenario } from '../../../protocol/rehearsal-title.ts';
import { paFromMicron } from '../../../protocol/units.ts';
import { scoreCalls } from '../../../web/analysis/training/call-score.ts';
import { finding } from '../../../web/analysis/training/finding.ts';
import { moreChoices } from '../../../web/live/mark-choices.ts';
import { sayDoing, sayMarkCaution, sayUnchanged } from '../../../web/words/say-action.ts';
import { sayFinding, sayFindingMoment } from '../../../web/words/say-finding.ts';
import {
  sayDifficulty,
  sayRehearsalJob,
  sayRehearsalTitle,
  sayRehearsed,
} from '../../../web/words/say-rehearsal.ts';
import { causeInSentence, nameCause } from '../../../web/words/say-rehearsal-cause.ts';
import { listRevealNumbers, sayOutcome, sayWhenItTold } from '../../../web/words/say-reveal.ts';
import { listScore, sayResult, sayTooFew } from '../../../web/words/say-score.ts';
import { englishIn, MICRON } from '../../support/english-speech.ts';

const reveal: Reveal = {
  name: 'weir-street-archive',
  cause: 'leak_and_moisture',
  truth: '',
  tells: '',
  toldS: 620,
  leakPaPerS: paFromMicron(25) / 60,
  waterKgAtStart: 0.00031,
  ballastOpenAtStart: true,
};

describe('causes', () => {
  test('no two have the same name', () => {
    expect(new Set(REHEARSAL_CAUSES.map((cause) => nameCause(cause, MICRON))).size).toBe(
      REHEARSAL_CAUSES.length,
    );
  });

  test('stand small within a sentence', () => {
    expect(causeInSentence('gear_leak', MICRON)).toBe('leak in the gear');
  });
});

describe('the outcome', () => {
  test('right, not so, and without a call', () => {
    const call = { cause: 'leak', surePercent: 70 } as const;
    expect(sayOutcome(call, 'leak', MICRON)).toMatchObject({
      tone: 'good',
      headline: 'Right: leak.',
    });
    expect(sayOutcome(call, 'moisture', MICRON)).toMatchObject({
      tone: 'warning',
      headline: 'Not so. It was: moisture.',
      detail: ['Your call: Leak, 70\u00a0% sure.'],
    });
    expect(sayOutcome(null, 'radio', MICRON)).toMatchObject({
      tone: 'calm',
      headline: 'It was: radio.',
    });
  });

  test('tells how long after the curve had told the call came', () => {
    expect(sayWhenItTold(reveal, 920, 20, MICRON)).toBe(
      'From 10:00 on the curve differed from that of the same job in order. ' +
        'Your call came 5 min later, at 15:00.',
    );
  });

  test('a call before that was a guess', () => {
    expect(sayWhenItTold(reveal, 560, 20, MICRON)).toMatch(/1 min before that: a guess\.$/u);
  });

  test.each([
    ['in_order', /full hold/u],
    ['radio', /Missing readings/u],
    ['leak', /never differed/u],
  ] as const)('where the curve never told, says why: %s', (cause, words) => {
    const said = sayWhenItTold({ cause, toldS: null }, 80, 20, MICRON);
    expect(said).toMatch(words);
    expect(said).toMatch(/Your call came at 1:00\.$/u);
  });

  test('the numbers in the unit of choice', () => {
    const values = listRevealNumbers(reveal, MICRON).map(({ value }) => value);
    expect(values).toEqual(['25 micron a minute', '0.31 g', 'open']);
    const none = { ...reveal, leakPaPerS: 0, waterKgAtStart: 0, ballastOpenAtStart: false };
    expect(
      listRevealNumbers(none, englishIn({ pressure: 'Pa' })).map(({ value }) => value),
    ).toEqual(['none', 'none', 'closed']);
  });
});

describe('the debrief', () => {
  test('says pressure and length where they matter, and when', () => {
    const hold = finding('hold_too_short', 'early', {
      atS: 200,
      pressurePa: paFromMicron(300),
      lastedS: 130,
    });
    expect(sayFinding(hold, MICRON)).toBe(
      'The hold ended before its time (2 min 10 s, 300 micron).',
    );
    expect(sayFindingMoment(hold, 20)).toBe('3:00');
    expect(sayFindingMoment(finding('no_call', 'missed'), 20)).toBeNull();
  });

  test('names the cure that was tried', () => {
    const tried = finding('cure_tried', 'well', { atS: 5, cure: 'oil_changed' });
    expect(sayFinding(tried, MICRON)).toBe('Changing the oil goes to the cause, or to its place.');
  });
});

describe('what changes nothing', () => {
  test('is said of each action in its own words, without its name in the protocol', () => {
    const said = REHEARSAL_ACTIONS.map((action) => sayUnchanged(action, MICRON));
    expect(new Set(said).size).toBe(REHEARSAL_ACTIONS.length);
    expect(said.filter((words) => words.includes('_'))).toEqual([]);
  });
});

test('everything more that can be done has a name and a caution', () => {
  for (const kind of [...moreChoices([], true), 'stub_opened'] as const) {
    expect(sayDoing(kind, true, MICRON), kind).not.toBe(sayDoing(kind, false, MICRON));
    expect(sayMarkCaution(kind, MICRON), kind).not.toBe('');
  }
});

describe('results', () => {
  test('a drawn job is known by its number', () => {
    expect(sayDifficulty('generated-mixed', MICRON)).toBe('Mixed');
    expect(sayDifficulty('quarry-road-bakery', MICRON)).toBeNull();
    expect(sayRehearsed('generated-mixed', 4711, MICRON)).toBe('A mixed job, number 4711');
    expect(sayRehearsed('quarry-road-bakery', 1, MICRON)).toBe('Bakery in Quarry Road, sales room');
    // Of another version of the bridge.
    expect(sayRehearsed('any-street-house', 1, MICRON)).toBe('any street house');
  });

  test('a recording’s title says which job it was', () => {
    const titles = [
      { name: 'generated-hard', seed: 0xffff_ffff },
      { name: 'weir-street-archive', seed: null },
    ];
    for (const title of titles) expect(scenarioOfTitle(titleOfScenario(title))).toEqual(title);
    expect(sayRehearsalJob('generated-hard 12', MICRON)).toBe('A hard job, number 12');
    expect(sayRehearsalTitle('weir-street-archive', MICRON)).toBe(
      'Rehearsal: Town archive in Weir Street, reading room',
    );
    // Of before the number was kept.
    expect(sayRehearsalJob('generated-hard', MICRON)).toBe('A hard job');
  });

  test('the truth stands beside a call that was not right', () => {
    const result = {
      trainee: 'Ines',
      cause: 'leak',
      surePercent: 70,
      elapsedS: 9,
      recordingId: 1,
      scenario: 'x',
      seed: 1,
      truth: 'moisture',
      toldS: null,
      revealedAtMs: 0,
    } as const;
    expect(sayResult(result, MICRON)).toBe('Called: Leak, 70\u00a0% sure. It was: moisture.');
    expect(sayResult({ ...result, truth: 'leak' }, MICRON)).toBe('Called: Leak, 70\u00a0% sure.');
  });

  test('too few calls give no score', () => {
    expect(sayTooFew(1, MICRON)).toBe('A score takes 5 calls; so far there is 1.');
    expect(sayTooFew(3, MICRON)).toMatch(/are 3\.$/u);
  });

  test.each([
    [100, 0, /surer than/u],
    [1, 20, /less sure than/u],
    [50, 10, /no different/u],
  ])('sureness of %d and %d of 20 right', (surePercent, rightCount, words) => {
    const score = scoreCalls(
      Array.from({ length: 20 }, (_, at) => ({
        cause: 'leak' as const,
        truth: at < rightCount ? ('leak' as const) : ('moisture' as const),
        surePercent,
      })),
    );
    const rows = score === null ? [] : listScore(score, MICRON);
    expect(rows.map(({ name }) => name)).toEqual(['Right', 'Sure, on average', 'Brier score']);
    expect(rows[1]?.remark).toMatch(words);
  });
});
