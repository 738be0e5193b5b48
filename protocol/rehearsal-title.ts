/** What a rehearsal's recording is called: its scenario's name, and the number of a job that was drawn by it. */

interface RehearsedScenario {
  readonly name: string;
  /** Null where the name alone says which job it is, and in recordings of before the number was kept. */
  readonly seed: number | null;
}

/** 'station-road-florist', 'generated-mixed 4711'. */
export function titleOfScenario({ name, seed }: RehearsedScenario): string {
  return seed === null ? name : `${name} ${seed}`;
}

export function scenarioOfTitle(title: string): RehearsedScenario {
  const [, name = title, seed] = /^(\S+) (\d+)$/u.exec(title) ?? [];
  return { name, seed: seed === undefined ? null : Number(seed) };
}
