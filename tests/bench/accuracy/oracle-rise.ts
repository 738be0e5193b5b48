/**
 * What a learner makes of a rise, beside the judge: how many have to stay undecided if the others are to be right
 * as often as the bar asks, and how narrow the leak's interval can be. Not part of the table: run it by itself.
 *
 *   node --import tsx tests/bench/accuracy/oracle-rise.ts [RISES OF EACH WORLD]
 *
 * It sees the curve, the temperature and the judge's own numbers. Once it is trained on the very world that it is
 * asked about, on two thirds of the seeds, so that it knows that world's odds, which no judge does; once on the
 * other world, as a judge meets a system that nobody simulated. Either time where it draws its lines
 * is chosen on the cases that it is judged by: more than any judge can have.
 */
import { judgedRanges, learntWidth } from './learnt-leak.ts';
import { callsOf, judged, leastUndecided, type Right } from './learnt-verdict.ts';
import { countArgument } from './oracle-arguments.ts';
import { riseRow, type RiseRow } from './rise-features.ts';
import { SECOND_WORLD } from './second-world-trials.ts';
import { SIMULATED_WORLD } from './simulated-trials.ts';
import { MINUTES } from './tell-rise.ts';
import type { World } from './trials.ts';

const DEFAULT_RISES = 900;
/** The bar: right among decided, by minute. */
const RIGHT = [0.94, 0.95, 0.96, 0.98];
/** Each seed in so many is asked about, by whole rounds of the classes. */
const ROUND = 5;
const ASKED = 3;
const HOW: readonly Right[] = ['to_the_word', 'leak_named'];

interface Rows {
  readonly learnt: readonly RiseRow[];
  readonly asked: readonly RiseRow[];
}

/** By minute. */
function rowsOf(world: World, rises: number): Rows[] {
  const trials = Array.from({ length: rises }, (_, i) => world.rise(i + 1));
  return MINUTES.map((minute) => {
    const rows = trials.map((trial) => riseRow(trial, minute));
    const asked = rows.filter(({ trial }) => Math.floor(trial.seed / ROUND) % ASKED === 0);
    return { asked, learnt: rows.filter((row) => !asked.includes(row)) };
  });
}

function tell(name: string, minute: number, bar: number, here: Rows, elsewhere: Rows): void {
  const isClear = ({ trial }: RiseRow) => trial.kind !== 'borderline';
  const asked = here.asked.filter(isClear);
  const percent = (share: number) => `${(100 * share).toFixed(0)} %`;
  const teachers = [
    ['taught here', here.learnt],
    ['taught in the other world', [...elsewhere.learnt, ...elsewhere.asked]],
  ] as const;
  const calls = teachers.map(([, rows]) => callsOf(rows.filter(isClear), asked));
  console.log(`${name} world, after ${minute} min, ${asked.length} rises that are not borderline`);
  for (const how of HOW) {
    const own = judged(asked, how);
    const least = calls.map(
      (of, i) => `${percent(leastUndecided(of, bar, how))} ${teachers[i]?.[0]}`,
    );
    console.log(
      `  ${how}: to be right of ${percent(bar)} the learner leaves undecided ${least.join(', ')}; ` +
        `the judge is right of ${percent(own.right)} and leaves ${percent(own.undecided)}`,
    );
  }
  const ranges = teachers.map(
    ([who, rows]) => `${learntWidth(rows, here.asked).toFixed(1)} ${who}`,
  );
  const own = judgedRanges(here.asked);
  console.log(
    `  leak's interval, median width, micron/min, ${here.asked.length} rises: the learner's ${ranges.join(', ')}, each ` +
      `holding 90 %; the judge's ${own.width.toFixed(1)}, holding ${percent(own.held)}`,
  );
}

const rises = countArgument(0, 'rises of each world', DEFAULT_RISES, 30);
const second = rowsOf(SECOND_WORLD, rises);
const simulated = rowsOf(SIMULATED_WORLD, rises);
for (const [at, minute] of MINUTES.entries()) {
  const [one, other] = [second[at], simulated[at]];
  const bar = RIGHT[at];
  if (!one || !other || bar === undefined) throw new Error('each minute has rows and a bar');
  tell('second', minute, bar, one, other);
  tell('simulated', minute, bar, other, one);
}
