/** The stages that have been told so far, one after the other. */
import type { Stage, StageName } from '../conclusions.ts';

/** A stretch of the job, and when it had become plain. */
export interface Spell {
  readonly stage: Stage;
  readonly seenS: number;
}

export class Spells {
  #all: Spell[] = [
    {
      stage: { name: 'waiting', sinceS: 0, recognisedBy: 'curve', alternatives: [] },
      seenS: 0,
    },
  ];

  get all(): readonly Spell[] {
    return this.#all;
  }

  get count(): number {
    return this.#all.length;
  }

  get stage(): Stage {
    const latest = this.#all.at(-1);
    if (!latest) throw new Error('there is always a stage');
    return latest.stage;
  }

  begin(stage: Stage, seenS: number): void {
    this.#all.push({ stage, seenS });
  }

  /** @param names the likeliest first */
  rename([name, ...alternatives]: readonly [StageName, ...StageName[]]): void {
    const spell = this.#all.pop();
    if (spell) this.#all.push({ ...spell, stage: { ...spell.stage, name, alternatives } });
  }

  /** What came after the first so many was none. */
  takeBackTo(count: number): void {
    this.#all.length = count;
  }

  /** Goes on from where others are, which stay there. */
  become(others: Spells): void {
    this.#all = [...others.#all];
  }
}
