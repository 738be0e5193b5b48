/** The nitrogen test: what was read, and what that shows. */
import { nitrogenTest } from '../analysis/nitrogen/nitrogen-test.ts';
import { gaugeUnitOf, sayGauge } from '../words/say-gauge-pressure.ts';
import { sayNitrogen, sayNitrogenGauge, sayNitrogenGrounds } from '../words/say-nitrogen.ts';
import { sayTenths } from '../words/say-temperature.ts';
import { sayWallTime } from '../words/say-wall-time.ts';
import { type Block, listTable, paragraph, section, type Section } from './report-document.ts';
import type { Report } from './report-model.ts';

export function nitrogenSections({ sheet, speech, offsetMinutes }: Report): Section[] {
  const { nitrogenReadings: readings, nitrogenGauge: gauge } = sheet;
  if (readings.length === 0) return [];
  const words = speech.wording.nitrogen;
  const unit = gaugeUnitOf(speech);
  const { columns } = words;
  const rows = readings.map(({ atMs, pressure, temperatureC, step, justFilled, note }) => [
    sayWallTime(atMs, offsetMinutes, speech),
    String(step),
    sayGauge(pressure, unit, speech),
    temperatureC === null ? words.noTemperature : sayTenths(temperatureC, speech),
    [...(justFilled ? [words.filled] : []), note].filter((part) => part !== '').join('; '),
  ]);
  const headings = [
    speech.wording.report.columns.clock,
    columns.step,
    columns.shown,
    columns.metal,
    columns.remark,
  ];
  const told = nitrogenTest(readings, gauge, sheet).flatMap((tested): (Block | null)[] => {
    if (tested.kind !== 'compared') return [];
    const { headline, sure, detail } = sayNitrogen(tested, unit, speech);
    const name = words.stepName({ step: String(tested.step) });
    return [
      { kind: 'heading', text: `${name}: ${sure === '' ? headline : `${sure}. ${headline}`}` },
      paragraph(detail.join(' ')),
      paragraph(sayNitrogenGrounds(tested, unit, speech).join(' '), 'quiet'),
    ];
  });
  const accuracy = sayNitrogenGauge(gauge, speech);
  return [
    section(
      words.title,
      listTable(headings, rows),
      ...told,
      paragraph(`${words.byGauge({ accuracy })} ${words.errors}`, 'quiet'),
    ),
  ];
}
