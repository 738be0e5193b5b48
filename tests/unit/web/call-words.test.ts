import { describe, expect, it } from 'vitest';
import { REHEARSAL_CAUSES, type Call, type RehearsalResult } from '../../../protocol/api.ts';
import { scoreCalls } from '../../../web/analysis/call-score.ts';
import { finding, type FindingKind } from '../../../web/analysis/finding.ts';
import { CAUSE_WORDS, sayCalled, sayTold } from '../../../web/words/say-call.ts';
import { sayFinding } from '../../../web/words/say-finding.ts';
import { sayTruthNumbers } from '../../../web/words/say-reveal.ts';
import { sayResult, sayScore } from '../../../web/words/say-results.ts';

const CALL: Call = { trainee: 'R. Sample', cause: 'leak', surePercent: 70, elapsedS: 905 };
const REVEAL = {
  name: 'any-street',
  cause: 'leak',
  truth: '',
  tells: '',
  toldS: 640,
  leakPaPerS: 0.0555,
  waterKgAtStart: 0.0021,
  ballastOpenAtStart: true,
} as const;

describe('the causes', () => {
  it('have a name and a sign of their own each', () => {
    const names = REHEARSAL_CAUSES.map((cause) => CAUSE_WORDS[cause].name);
    const signs = REHEARSAL_CAUSES.map((cause) => CAUSE_WORDS[cause].sign);
    expect(new Set(names).size).toBe(REHEARSAL_CAUSES.length);
    expect(new Set(signs).size).toBe(REHEARSAL_CAUSES.length);
  });

  it('are compared with the call', () => {
    expect(sayCalled(CALL, REVEAL)).toBe(
      'Right. A leak in the system, said R. Sample, 70 % sure, at 15:05.',
    );
    expect(sayCalled({ ...CALL, cause: 'radio' }, REVEAL)).toMatch(/^Not right\. The radio lost/u);
  });

  it('come with the moment from which the curve told, or that it never did', () => {
    expect(sayTold(640)).toContain('10:40');
    expect(sayTold(null)).toContain('never');
  });

  it('come with the numbers behind them', () => {
    // 0.0555 Pa/s · 60 s / 0.133322 Pa = 24.98 micron a minute.
    expect(sayTruthNumbers(REVEAL, 'micron')).toBe(
      'A steady inflow of 25 micron a minute, 2.1 g of water at the start.',
    );
    expect(sayTruthNumbers({ leakPaPerS: 0, waterKgAtStart: 0 }, 'micron')).toBe(
      'No inflow, no water.',
    );
  });
});

describe('a finding', () => {
  const KINDS: readonly FindingKind[] = [
    'right_call',
    'called_before_it_told',
    'ballast_closed_in_time',
    'isolated_above_depth',
    'pump_stopped_before_valve_off',
    'cure_tried',
  ];

  it('says when, how deep and what', () => {
    for (const kind of KINDS) {
      expect(sayFinding(finding(kind, 'well', { atS: 65 }), 'micron'), kind).toContain('1:05');
    }
    const deep = finding('isolated_above_depth', 'early', { atS: 65, pressurePa: 93.33 });
    expect(sayFinding(deep, 'micron')).toBe(
      'Valved off at 1:05, at 700 micron, while it was still falling.',
    );
    const cure = finding('cure_tried', 'well', { atS: 65, cure: 'oil_changed' });
    expect(sayFinding(cure, 'micron')).toContain('oil changed');
    const hold = finding('hold_too_short', 'missed', { lastedS: 300 });
    expect(sayFinding(hold, 'micron')).toBe('The hold was too short (5 min).');
  });
});

describe('results', () => {
  const result = (right: boolean): RehearsalResult => ({
    ...CALL,
    recordingId: 3,
    scenario: 'any-street',
    seed: 1,
    truth: right ? 'leak' : 'moisture',
    toldS: null,
    revealedAtMs: 0,
  });

  it('say what was called and what it was', () => {
    expect(sayResult(result(true))).toEqual({
      title: 'Rehearsal: any street',
      text: 'Right: A leak in the system, 70 % sure.',
    });
    expect(sayResult(result(false)).text).toBe(
      'A leak in the system, 70 % sure. It was: Moisture.',
    );
  });

  it('give no score of too few, and one with its interval of enough', () => {
    const four = [true, true, false, true].map(result);
    expect(sayScore(4, scoreCalls(four))).toContain('too few');
    const eight = [...four, ...four];
    // Six of eight right; Brier (6 · 0.3² + 2 · 0.7²) / 8 = 0.19.
    expect(sayScore(8, scoreCalls(eight))).toMatch(
      /^8 calls, 75 % right \(\d+ to \d+ %.*70 % sure/u,
    );
    expect(sayScore(8, scoreCalls(eight))).toContain('Brier score 0.19');
  });
});
