/**
 * What the screen's end of the stream does, as a pure step: an event in, a new state and what to do
 * out. The socket, the clock and the timers are somebody else's.
 *
 * The screen says which recording it follows and the last index that it has, and says the same again
 * after every loss: so it misses nothing and needs nothing twice.
 */
import {
  type ClientMessage,
  greetingSchema,
  type ServerMessage,
  serverMessageSchema,
  STREAM_VERSION,
  TICK_INTERVAL_MS,
} from '../../protocol/stream.ts';
import { retryDelayMs } from './retry-delay.ts';

type ConnectionPhase = 'connecting' | 'catching_up' | 'live' | 'lost';

export interface ConnectionState {
  readonly phase: ConnectionPhase;
  /** Wall-clock milliseconds since 1970 UTC. */
  readonly sinceMs: number;
  readonly lastHeardMs: number;
  readonly failedAttempts: number;
  /** Whether a timer is running that will try again. */
  readonly retryPending: boolean;
  readonly following: Following | null;
  /** Whether the bridge's last message was of a form that this page does not know. */
  readonly misunderstood: boolean;
  /** Whether the bridge that answered last speaks another version of the stream: no reading can come. */
  readonly otherVersion: boolean;
}

interface Following {
  readonly recordingId: number;
  readonly afterIndex: number;
}

export type ConnectionEvent =
  | { readonly type: 'start' }
  | { readonly type: 'message'; readonly text: string }
  | { readonly type: 'closed' }
  /** Comes every second or so. */
  | { readonly type: 'clock' }
  | { readonly type: 'retry' }
  | { readonly type: 'follow'; readonly recordingId: number };

export type ConnectionEffect =
  | { readonly type: 'open' }
  | { readonly type: 'close' }
  | { readonly type: 'retry_in'; readonly delayMs: number }
  | { readonly type: 'send'; readonly message: ClientMessage }
  | { readonly type: 'deliver'; readonly message: ServerMessage }
  | { readonly type: 'reload'; readonly streamVersion: number };

export interface ConnectionStep {
  readonly state: ConnectionState;
  readonly effects: readonly ConnectionEffect[];
}

/** Longer without a word means that the socket is open on this side only. */
const SILENCE_LIMIT_MS = 3 * TICK_INTERVAL_MS;

export function initialConnection(nowMs: number): ConnectionState {
  return {
    phase: 'connecting',
    sinceMs: nowMs,
    lastHeardMs: nowMs,
    failedAttempts: 0,
    retryPending: false,
    following: null,
    misunderstood: false,
    otherVersion: false,
  };
}

export function stepConnection(
  state: ConnectionState,
  event: ConnectionEvent,
  nowMs: number,
): ConnectionStep {
  switch (event.type) {
    case 'start':
    case 'retry':
      return {
        state: { ...state, lastHeardMs: nowMs, retryPending: false },
        effects: [{ type: 'open' }],
      };
    case 'closed':
      return lose(silent(state), nowMs, []);
    case 'clock':
      return nowMs - state.lastHeardMs > SILENCE_LIMIT_MS && !state.retryPending
        ? lose(silent(state), nowMs, [{ type: 'close' }])
        : { state, effects: [] };
    case 'follow':
      return follow(state, event.recordingId, nowMs);
    case 'message':
      return hear(state, event.text, nowMs);
  }
}

function follow(state: ConnectionState, recordingId: number, nowMs: number): ConnectionStep {
  if (state.following?.recordingId === recordingId) return { state, effects: [] };
  const following = { recordingId, afterIndex: 0 };
  if (state.phase === 'connecting' || state.phase === 'lost') {
    return { state: { ...state, following }, effects: [] };
  }
  return {
    state: enter({ ...state, following }, 'catching_up', nowMs),
    effects: [{ type: 'send', message: { type: 'follow', ...following } }],
  };
}

function hear(state: ConnectionState, text: string, nowMs: number): ConnectionStep {
  const json = parse(text);
  const greeting = greetingSchema.safeParse(json);
  // A bridge of another version may well say more than this page understands.
  if (greeting.success && greeting.data.streamVersion !== STREAM_VERSION) {
    const { streamVersion } = greeting.data;
    // A newer page may be had. If it isn't, what stands here says why no reading comes; and another bridge
    // may be started meanwhile, so it is asked again.
    return lose({ ...state, otherVersion: true }, nowMs, [
      { type: 'close' },
      { type: 'reload', streamVersion },
    ]);
  }
  const { data: message } = serverMessageSchema.safeParse(json);
  if (message === undefined) {
    // To go on would leave a hole in the curve that nobody sees: say so, and ask again.
    return lose({ ...state, misunderstood: true }, nowMs, [{ type: 'close' }]);
  }
  const heard = { ...state, lastHeardMs: nowMs };
  switch (message.type) {
    case 'hello':
      return greet(heard, message, nowMs);
    case 'backfill':
      return backfill(heard, message, nowMs);
    case 'readings':
      return isFollowed(heard, message.recordingId)
        ? { state: advance(heard, message.columns.index), effects: [deliver(message)] }
        : { state: heard, effects: [] };
    case 'facts':
    case 'mark':
    case 'mark_taken_back':
    case 'job_deleted':
    case 'sheet':
    case 'taken_back':
    case 'seen_alert':
      return {
        state: heard,
        effects: isFollowed(heard, message.recordingId) ? [deliver(message)] : [],
      };
    case 'recording':
    case 'source':
    case 'record':
    case 'office':
      return { state: heard, effects: [deliver(message)] };
    case 'tick':
      return { state: heard, effects: [] };
  }
}

function greet(
  state: ConnectionState,
  message: Extract<ServerMessage, { type: 'hello' }>,
  nowMs: number,
): ConnectionStep {
  const welcome = { ...state, failedAttempts: 0, misunderstood: false, otherVersion: false };
  if (welcome.following === null) {
    return { state: enter(welcome, 'live', nowMs), effects: [deliver(message)] };
  }
  return {
    state: enter(welcome, 'catching_up', nowMs),
    effects: [
      deliver(message),
      { type: 'send', message: { type: 'follow', ...welcome.following } },
    ],
  };
}

function backfill(
  state: ConnectionState,
  message: Extract<ServerMessage, { type: 'backfill' }>,
  nowMs: number,
): ConnectionStep {
  // The rest of a recording that is no longer looked at.
  if (!isFollowed(state, message.recordingId)) return { state, effects: [] };
  const advanced = advance(state, message.columns.index);
  if (message.complete) {
    return { state: enter(advanced, 'live', nowMs), effects: [deliver(message)] };
  }
  return {
    state: advanced,
    // Asked first: the bridge gets the next part ready while the page takes this one in.
    effects: [
      { type: 'send', message: { type: 'more', recordingId: message.recordingId } },
      deliver(message),
    ],
  };
}

/** What does not answer at all is no longer known to be of another version. */
function silent(state: ConnectionState): ConnectionState {
  return state.otherVersion ? { ...state, otherVersion: false } : state;
}

function lose(
  state: ConnectionState,
  nowMs: number,
  before: readonly ConnectionEffect[],
): ConnectionStep {
  if (state.retryPending) return { state, effects: before };
  return {
    state: {
      ...enter(state, 'lost', state.phase === 'live' ? state.lastHeardMs : nowMs),
      failedAttempts: state.failedAttempts + 1,
      retryPending: true,
    },
    effects: [...before, { type: 'retry_in', delayMs: retryDelayMs(state.failedAttempts) }],
  };
}

/** A loss is as old as the first failure: further failed tries don't make it younger. */
function enter(state: ConnectionState, phase: ConnectionPhase, sinceMs: number): ConnectionState {
  return state.phase === phase ? state : { ...state, phase, sinceMs };
}

function advance(state: ConnectionState, indices: readonly number[]): ConnectionState {
  if (state.following === null) return state;
  const afterIndex = indices.reduce((last, at) => Math.max(last, at), state.following.afterIndex);
  return { ...state, following: { ...state.following, afterIndex } };
}

function isFollowed(state: ConnectionState, recordingId: number): boolean {
  return state.following?.recordingId === recordingId;
}

function deliver(message: ServerMessage): ConnectionEffect {
  return { type: 'deliver', message };
}

function parse(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
