/** Where a job stands among its planned evacuations, what they have done, and what comes next. */
import type { Mark } from '../../../protocol/mark.ts';
import { type SheetEntry, sheetFromEntries } from '../../../protocol/sheet.ts';
import type { TriplePlan } from '../../../protocol/triple-plan.ts';
import type { Estimate } from '../conclusions.ts';
import { type WaterFound, waterFound } from '../flows/water-found.ts';
import type { History } from '../readings/history.ts';
import { keptPast } from '../readings/kept-past.ts';
import { sheetWhilePumped } from '../seen/sheet-then.ts';
import { spellsUntil } from '../stages/spell-list.ts';
import { airLeftShare } from './dilution.ts';
import { evacuationCycles, type Cycle } from './evacuation-cycles.ts';
import { type MoistureTrend, moistureTrend } from './moisture-trend.ts';

export interface ToldCycle extends Cycle {
  /** What the plan asks of it; null where it has no such cycle. */
  readonly planned: { readonly targetPa: number; readonly holdS: number | null } | null;
  readonly hasReached: boolean;
  /** Held as long as is asked; true where nothing is. */
  readonly hasHeld: boolean;
  /** Boiled away and pumped off in it, g; null where no plateau was seen, or no speed is known. */
  readonly waterG: Estimate | null;
}

/** What comes next, of evacuation `number` of `of`. */
export interface NextCycle {
  readonly kind: 'pull_down' | 'hold' | 'break' | 'done';
  readonly number: number;
  readonly of: number;
  readonly targetPa: number;
  readonly holdS: number | null;
  readonly breakToPa: number;
}

export interface TripleTold {
  readonly cycles: readonly ToldCycle[];
  /** Null where nothing is planned. */
  readonly next: NextCycle | null;
  /**
   * Of the air that was there first, at best; null where the sensor did not see a depth, nothing was pumped, or
   * something came in that nobody marked as nitrogen.
   */
  readonly airLeft: number | null;
  readonly trend: MoistureTrend;
  /** All cycles together; null where none is known. */
  readonly waterG: Estimate | null;
  /** So much water that dilution is no way to get rid of it. */
  readonly isFlooded: boolean;
}

/** What oil and walls of a system in order hold is some grams; this is a puddle. A setting of ours. */
const FLOODED_G = 50;

const keptWater = keptPast<WaterFound>();
const keptTemperatures = keptPast<number | null>();

export function tripleTold(
  history: History,
  marks: readonly Mark[],
  entries: readonly SheetEntry[],
  nowS: number,
): TripleTold {
  const sheet = sheetFromEntries(entries);
  const { triplePlan: plan } = sheet;
  const { stages } = spellsUntil(history, marks, sheet, nowS);
  const seen = evacuationCycles(history, stages, nowS);
  const cycles = seen.map((cycle, at): ToldCycle => {
    const planned = plan.cycles[at] ?? null;
    const pulled = { fromS: cycle.fromS, toS: cycle.holds[0]?.fromS ?? cycle.toS };
    const water = keptWater(history, [marks, entries], pulled, () =>
      waterFound(history, pulled, sheetWhilePumped(sheet, { marks, entries }, pulled)),
    );
    const heldS = Math.max(0, ...cycle.holds.map(({ fromS, toS }) => toS - fromS));
    return {
      ...cycle,
      planned,
      hasReached:
        planned !== null &&
        cycle.unmarkedFill !== 'stands' &&
        cycle.depthPa !== null &&
        cycle.depthPa <= planned.targetPa,
      hasHeld: heldS >= (planned?.holdS ?? 0),
      waterG: water.kind === 'grams' ? water.grams : null,
    };
  });
  const waterG = summed(cycles.flatMap((cycle) => (cycle.waterG === null ? [] : [cycle.waterG])));
  return {
    cycles,
    next: nextOf(cycles, plan),
    airLeft: airIsKnown(cycles) ? airLeftShare(cycles, plan.breakToPa) : null,
    trend: moistureTrend(history, seen, (fromS, toS) =>
      keptTemperatures(history, [entries], { fromS, toS }, () =>
        temperatureIn(history, entries, fromS, toS),
      ),
    ),
    waterG,
    isFlooded: (waterG?.estimate ?? 0) > FLOODED_G,
  };
}

function airIsKnown(cycles: readonly Cycle[]): boolean {
  return cycles.length > 0 && cycles.every(({ unmarkedFill }) => unmarkedFill === 'none');
}

function nextOf(cycles: readonly ToldCycle[], plan: TriplePlan): NextCycle | null {
  const broken = cycles.filter(({ isBroken }) => isBroken).length;
  const at = Math.min(broken, plan.cycles.length - 1);
  const planned = plan.cycles[at];
  if (planned === undefined) return null;
  const of = plan.cycles.length;
  const ahead = { number: at + 1, of, ...planned, breakToPa: plan.breakToPa };
  const present = cycles[at];
  if (present?.hasReached !== true) return { kind: 'pull_down', ...ahead };
  if (!present.hasHeld) return { kind: 'hold', ...ahead };
  return { kind: at + 1 < of ? 'break' : 'done', ...ahead };
}

/** Measured so long before a hold it still holds. A setting of ours. */
const MEASURED_BEFORE_S = 600;

/** As the sensor felt it; where it has no thermometer, as entered for the metal then, and not for another hold. */
function temperatureIn(
  history: History,
  entries: readonly SheetEntry[],
  fromS: number,
  toS: number,
): number | null {
  const felt = history.bins(fromS, toS).flatMap(({ temperatureC }) => temperatureC ?? []);
  if (felt.length > 0) return felt.reduce((sum, value) => sum + value, 0) / felt.length;
  const entered = entries.filter(
    ({ elapsedS }) => elapsedS >= fromS - MEASURED_BEFORE_S && elapsedS <= toS,
  );
  return sheetFromEntries(entered).metalTemperatureC;
}

/** Their errors are alike (the same pump, the same gauge): ends add up as they are. */
function summed(parts: readonly Estimate[]): Estimate | null {
  if (parts.length === 0) return null;
  const sum = (end: keyof Estimate) => parts.reduce((all, part) => all + part[end], 0);
  return { estimate: sum('estimate'), low: sum('low'), high: sum('high') };
}
