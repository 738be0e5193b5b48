/** One simulated case from beginning to end: the readings that were heard, and what was really so. */
import type { MarkKind } from '../../protocol/mark.ts';
import { isCsvEvent, type CsvEvent, type CsvRow } from '../../protocol/readings-csv.ts';
import { DEFAULT_SHEET } from '../../protocol/sheet.ts';
import { ScenarioRun } from '../../simulators/scenarios/scenario-run.ts';
import type { Scenario } from '../../simulators/scenarios/scenario.ts';
import { seenOnceIsolated } from '../../simulators/scenarios/truth.ts';
import type { TruthLine, TruthMoment } from './simulate-truth.ts';

interface SimulatedCase {
  readonly rows: readonly CsvRow[];
  readonly truth: TruthLine;
}

/** Pure. The scenario's helper does everything. */
export function simulateCase(scenario: Scenario, seed: number, file: string): SimulatedCase {
  const run = new ScenarioRun(scenario, seed, { helper: true });
  const rows: CsvRow[] = [];
  const waiting: CsvEvent[] = [];
  const marks: TruthLine['marks'] = [];
  const watched = new Watched();
  const startC = run.trueTemperatureC;
  while (!run.finished) {
    const { elapsedS, pressurePa, temperatureC, heard, event } = run.next();
    watched.see({ elapsed_s: elapsedS, true_pa: run.truePa, shown_pa: run.quietPa }, event);
    if (event !== null) {
      marks.push({ kind: event, elapsed_s: elapsedS });
      if (isCsvEvent(event)) waiting.push(event);
    }
    // As an export has it: a mark stands on the first reading at or after it.
    if (heard) rows.push({ elapsedS, pressurePa, event: waiting.shift() ?? null, temperatureC });
  }
  const { name, cause, leakPaPerS, waterKgAtStart, toldS, ballastOpenAtStart } = run.reveal();
  return {
    rows,
    truth: {
      file,
      scenario: name,
      seed,
      cause,
      leak_pa_per_s: leakPaPerS,
      volume_m3: seenOnceIsolated(scenario).volumeM3,
      water_kg_at_start: waterKgAtStart,
      told_s: toldS,
      ballast_open_at_start: ballastOpenAtStart,
      marks,
      target_reached_s: watched.targetReachedS,
      at_isolation: watched.atIsolation,
      end_of_hold: watched.endOfHold,
      temperature_c: { start: startC, end: run.trueTemperatureC },
      ended_s: run.elapsedS,
    },
  };
}

/** Holds on to the moments that matter. */
class Watched {
  targetReachedS: number | null = null;
  atIsolation: TruthMoment | null = null;
  endOfHold: TruthMoment | null = null;
  #holding = false;

  /** @param event what was done at that moment, after the reading */
  see(moment: TruthMoment, event: MarkKind | null): void {
    if (moment.true_pa <= DEFAULT_SHEET.targetPa) this.targetReachedS ??= moment.elapsed_s;
    const heldS = moment.elapsed_s - (this.atIsolation?.elapsed_s ?? Infinity);
    if (this.#holding && heldS >= DEFAULT_SHEET.holdS) this.endOfHold ??= moment;
    if (event === 'isolated') {
      this.atIsolation = moment;
      this.endOfHold = null;
    }
    if (event !== null) this.#holding = event === 'isolated';
  }
}
