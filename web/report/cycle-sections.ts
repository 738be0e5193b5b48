/** Evacuations with nitrogen between them, and the holds of a leak hunt. */
import { sayCycle, sayCyclesDone, sayTrend } from '../words/say-cycles.ts';
import { sayHunt, sayHuntHold, sayPart } from '../words/say-hunt.ts';
import { lastNitrogenTest } from '../analysis/nitrogen/nitrogen-test.ts';
import { factTable, paragraph, section, type Section } from './report-document.ts';
import type { Report, SensorReport } from './report-model.ts';

export function cycleSections(
  { speech }: Report,
  { cycles: told, sheet }: SensorReport,
): Section[] {
  const words = speech.wording.cycles;
  const isOne = told.cycles.length < 2 && sheet.triplePlan.cycles.length === 0;
  if (told.cycles.length === 0 || isOne) return [];
  const facts = told.cycles.map((cycle, at) => ({
    name: words.number({ number: String(at + 1) }),
    value: sayCycle(cycle, speech),
  }));
  return [
    section(
      words.title,
      factTable(facts),
      paragraph(sayTrend(told.trend, speech).join(' ')),
      paragraph(sayCyclesDone(told, speech).join(' '), 'quiet'),
    ),
  ];
}

export function huntSections({ speech }: Report, { hunt, sheet }: SensorReport): Section[] {
  if (hunt === null || hunt.holds.length === 0) return [];
  const words = speech.wording.hunt;
  const tested = lastNitrogenTest(sheet.nitrogenReadings, sheet.nitrogenGauge, sheet);
  const passed = tested?.verdict === 'holds';
  const facts = hunt.holds.map((hold) => ({
    name: sayPart(hold.part, speech),
    value: `${words.verdicts[hold.verdict]}: ${sayHuntHold(hold, speech)}`,
  }));
  return [
    section(words.title, factTable(facts), paragraph(sayHunt(hunt, passed, speech).join(' '))),
  ];
}
