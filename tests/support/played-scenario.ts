/** Scenarios played by their helpers, in the trade's unit; each once a test file. */
import { micronFromPa } from '../../protocol/units.ts';
import { ALL_SCENARIOS } from '../../simulators/scenarios/all-scenarios.ts';
import { play } from '../../simulators/scenarios/play.ts';
import type { Scenario, ScriptStep } from '../../simulators/scenarios/scenario.ts';

type PlayedScenario = ReturnType<typeof readable>;

const AS_SCRIPTED = new Map<string, PlayedScenario>();

export function scenarioNamed(name: string): Scenario {
  const scenario = ALL_SCENARIOS.find(({ card }) => card.name === name);
  if (!scenario) throw new Error(`there is no scenario ${name}`);
  return scenario;
}

export function played(name: string): PlayedScenario {
  const known = AS_SCRIPTED.get(name) ?? readable(scenarioNamed(name));
  AS_SCRIPTED.set(name, known);
  return known;
}

/** The same rig in other hands. */
export function playedBy(script: ScriptStep[], name: string): PlayedScenario {
  return readable({ ...scenarioNamed(name), script });
}

/** The same job in order, in the same hands. */
export function playedInOrder(name: string): PlayedScenario {
  const scenario = scenarioNamed(name);
  return readable({ ...scenario, ...scenario.inOrder });
}

function readable(scenario: Scenario) {
  const { rows, marks, truth } = play(scenario, 1);
  /** Data times of all marks of a kind. */
  const timesOf = (kind: string): number[] =>
    marks.filter((mark) => mark.kind === kind).map(({ elapsedS }) => elapsedS);
  const micronAt = (elapsedS: number): number => micronFromPa(rows[elapsedS]?.pressurePa ?? NaN);
  /** Mean of half a minute, so that noise doesn't count. */
  const around = (elapsedS: number): number =>
    Array.from({ length: 30 }, (_, second) => micronAt(elapsedS - 15 + second)).reduce(
      (sum, micron) => sum + micron / 30,
      0,
    );
  const holdAt = (which: number): number => timesOf('isolated').at(which) ?? NaN;
  return {
    rows,
    marks,
    truth,
    timesOf,
    micronAt,
    around,
    isolatedS: holdAt(-1),
    /** Seconds from pump on until the sensor first shows less; NaN: it never does. */
    timeTo: (micron: number): number => {
      const at = rows.findIndex(
        ({ pressurePa }) => pressurePa !== null && micronFromPa(pressurePa) < micron,
      );
      return at < 0 ? NaN : at - (timesOf('pump_on')[0] ?? NaN);
    },
    /** So long after the latest isolation, or another one. */
    held: (sinceIsolationS: number, which = -1): number => around(holdAt(which) + sinceIsolationS),
    /** Micron a minute over the last five minutes of a quarter of an hour. */
    slope: (which = -1): number => (around(holdAt(which) + 900) - around(holdAt(which) + 600)) / 5,
  };
}
