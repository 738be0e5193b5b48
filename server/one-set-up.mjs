/** One set-up of a folder at a time: two installs at once would wreck each other. */
import { readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';

const LOOK_AGAIN_MS = 250;
/** No set-up takes so long: the number of a process that died may have gone to another one. */
const LONGEST_MS = 20 * 60_000;

/**
 * Does the work while no other process does any under the same lock; waits for one that does.
 * A lock whose process has died is taken over.
 * @template T
 * @param {string} lock path of the lock file
 * @param {{ say: (line: string) => void, work: () => T }} options
 * @returns {T}
 */
export function oneAtATime(lock, { say, work }) {
  let waiting = false;
  while (!taken(lock)) {
    if (!waiting) say('Another set-up of this folder is going on: waiting for it.');
    waiting = true;
    if (!isHeld(lock)) rmSync(lock, { force: true });
    else Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, LOOK_AGAIN_MS);
  }
  try {
    return work();
  } finally {
    rmSync(lock, { force: true });
  }
}

function taken(lock) {
  try {
    writeFileSync(lock, String(process.pid), { flag: 'wx' });
    return true;
  } catch (error) {
    if (error.code === 'EEXIST') return false;
    throw error;
  }
}

/** Whether the process that wrote the lock still lives, as far as one can tell. */
function isHeld(lock) {
  try {
    if (Date.now() - statSync(lock).mtimeMs > LONGEST_MS) return false;
    const pid = Number(readFileSync(lock, 'utf8'));
    // Just made and not written yet: by somebody who lives.
    if (pid === 0) return true;
    process.kill(pid, 0);
    return true;
  } catch (error) {
    // Somebody else's process may not be signalled, and is there all the same.
    return error.code === 'EPERM';
  }
}
