/** Recordings that are taken over, one after the other, a slice whenever the writer has written what waits. */
import type Database from 'better-sqlite3';
import type { HalfTaken } from './half-taken.ts';
import { takeOver, type TakingOver } from './take-over.ts';
import type { TakeOver } from './taking.ts';

interface Wished {
  readonly wish: TakeOver;
  /** @param failure null: all of it is durable. Else why nothing of it is there. */
  readonly over: (failure: string | null) => void;
}

export class Takings {
  readonly #database: Database.Database;
  readonly #half: HalfTaken;
  readonly #told: TakingOver;
  readonly #wished: Wished[] = [];
  #steps: Iterator<unknown> | null = null;
  /** Why nothing of the first one stays: what is there of it is being removed. */
  #failure: string | null = null;

  constructor(database: Database.Database, half: HalfTaken, reserve: TakingOver['reserve']) {
    this.#database = database;
    this.#half = half;
    this.#told = {
      half: (recordingId) => half.begin(recordingId),
      whole: () => half.end(),
      reserve,
    };
  }

  get isIdle(): boolean {
    return this.#wished.length === 0;
  }

  add(wish: TakeOver, over: Wished['over']): void {
    this.#wished.push({ wish, over });
  }

  /** Does the next slice. A person waits for the answer: what fails is not tried again by itself. */
  step(): void {
    const [first] = this.#wished;
    if (first === undefined) return;
    try {
      this.#steps ??= this.#begin(first.wish);
      if (this.#steps.next().done !== true) return;
    } catch (error) {
      this.#undo(error instanceof Error ? error.message : String(error));
      return;
    }
    this.#done();
  }

  /** Nothing can be written any more: what is there of it is removed by the next one, or at the next start. */
  abandon(failure: string): void {
    this.#steps?.return?.();
    this.#failure ??= failure;
    this.#done();
  }

  #undo(failure: string): void {
    if (this.#failure !== null) {
      this.abandon(failure);
      return;
    }
    this.#failure = failure;
    this.#steps = this.#half.remove(this.#database);
  }

  *#begin(wish: TakeOver): Generator<void> {
    // What could not be removed after the one before.
    yield* this.#half.remove(this.#database);
    yield* takeOver(this.#database, wish, this.#told);
  }

  #done(): void {
    const first = this.#wished.shift();
    const failure = this.#failure;
    this.#failure = null;
    this.#steps = null;
    first?.over(failure);
  }
}
