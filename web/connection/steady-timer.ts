/**
 * Timers that keep their pace while nobody sees the page: browsers slow those of a hidden page to one a
 * minute, and an alert that comes a minute late comes too late. A worker's timers keep their pace.
 */

export type TimerOrder =
  | { readonly type: 'every'; readonly id: number; readonly everyMs: number }
  | { readonly type: 'end'; readonly id: number };

interface Wait {
  readonly everyMs: number;
  readonly run: () => void;
}

const waits = new Map<number, Wait>();
let latestId = 0;
/** Null once the worker has failed: the page's own timers are better than none. */
let worker: Worker | null | undefined;

/** @returns ends it */
export function every(everyMs: number, run: () => void): () => void {
  const id = (latestId += 1);
  waits.set(id, { everyMs, run });
  worker = worker === undefined ? start() : worker;
  if (worker === null) waitHere(id, everyMs);
  else order(worker, { type: 'every', id, everyMs });
  return () => {
    if (waits.delete(id) && worker) order(worker, { type: 'end', id });
  };
}

/** @returns takes it back */
export function after(delayMs: number, run: () => void): () => void {
  const end = every(delayMs, () => {
    end();
    run();
  });
  return end;
}

function order(to: Worker, what: TimerOrder): void {
  to.postMessage(what);
}

/** A worker that has said nothing for so long after its first order never will, ms. A setting of ours. */
const SILENT_MS = 10_000;

function start(): Worker | null {
  try {
    const started = new Worker(new URL('./timer-worker.ts', import.meta.url), { type: 'module' });
    let isHeard = false;
    const fail = () => {
      if (isHeard || worker === null) return;
      worker = null;
      for (const [id, { everyMs }] of waits) waitHere(id, everyMs);
    };
    started.onmessage = ({ data: id }: MessageEvent<number>) => {
      isHeard = true;
      waits.get(id)?.run();
    };
    started.onerror = fail;
    window.setTimeout(fail, SILENT_MS);
    return started;
  } catch {
    return null;
  }
}

function waitHere(id: number, everyMs: number): void {
  const timer = window.setInterval(() => {
    const wait = waits.get(id);
    if (wait === undefined) window.clearInterval(timer);
    else wait.run();
  }, everyMs);
}
