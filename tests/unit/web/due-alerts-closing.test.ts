/** While a system that passed is closed up: the vacuum is lost, and that is said once. */
import { expect, test } from 'vitest';
import type { Mark } from '../../../protocol/mark.ts';
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { dueAlerts } from '../../../web/alerts/due-alerts.ts';
import { givenAlertsSchema, NO_ALERTS_GIVEN } from '../../../web/alerts/given-alerts.ts';
import type { Verdict } from '../../../protocol/verdicts.ts';
import type { VacuumLoss } from '../../../web/analysis/closing/vacuum-loss.ts';
import type { AlertFact } from '../../../web/words/alert-fact.ts';
import { inRise } from './invented-conclusions.ts';

const LOSS: VacuumLoss = { atS: 2000, knownS: 2010, fromPa: 30, toPa: 90 };

/** Looks every ten seconds of a hold from 1000 s on; the loss shows once it has happened. */
function factsOf(
  verdictAt: (heldS: number) => Verdict,
  { untilS = 1300, marks = [] }: { untilS?: number; marks?: readonly Mark[] } = {},
): AlertFact[] {
  let given = NO_ALERTS_GIVEN;
  const facts: AlertFact[] = [];
  for (let heldS = 300; heldS <= untilS; heldS += 10) {
    const conclusions = inRise({ sinceS: 1000, heldS, verdict: verdictAt(heldS) });
    const lossAfter = (_isolatedS: number, judgedS: number) =>
      judgedS < LOSS.atS && conclusions.nowS >= LOSS.knownS ? LOSS : null;
    const found = dueAlerts(
      { conclusions, sheet: DEFAULT_SHEET, marks, lossAfter, opening: false },
      given,
    );
    given = givenAlertsSchema.parse(JSON.parse(JSON.stringify(found.given)));
    facts.push(...found.due);
  }
  return facts;
}

const kinds = (facts: readonly AlertFact[]) => facts.map(({ kind }) => kind);

test('after a pass it is said once, and not a second time by the pass that goes with it', () => {
  const facts = factsOf((heldS) => (heldS < 1010 ? 'tight_dry' : 'undecided'));
  expect(kinds(facts)).toEqual(['verdict', 'vacuum_lost']);
  expect(facts[1]).toEqual({ kind: 'vacuum_lost', atS: 2000, sinceS: 1000, fromPa: 30, toPa: 90 });
});

test('another verdict that follows is said', () => {
  const facts = factsOf((heldS) => (heldS < 1010 ? 'tight_dry' : 'leak'));
  expect(kinds(facts)).toEqual(['verdict', 'vacuum_lost', 'verdict_changed']);
});

test.each(['moisture', 'leak', 'undecided'] as const)(
  'after "%s" something is let in on purpose, and it is not said',
  (verdict) => {
    expect(kinds(factsOf(() => verdict))).not.toContain('vacuum_lost');
  },
);

test('a pass that had been taken back before is not closed up on', () => {
  const facts = factsOf((heldS) => (heldS < 500 ? 'tight_dry' : 'undecided'));
  expect(kinds(facts)).toEqual(['verdict', 'verdict_changed']);
});

test('what was marked was on purpose', () => {
  const marks = [
    { id: 1, kind: 'nitrogen_break', elapsedS: 1995, text: '', madeBy: 'hand' },
  ] as const;
  expect(kinds(factsOf(() => 'tight_dry', { marks }))).toEqual(['verdict']);
});
