/** How alerts reach somebody, and the list of them. */

export const ALERT_WORDS = {
  title: 'Alerts',
  menu: 'What was called out in this recording, and who has seen it.',
  seen: 'Seen',
  allSeen: 'All seen',
  none: 'Nothing has been called out in this recording.',
  reach: 'How they reach you',
  early: 'before this page was opened',
  unheard: 'Not heard: the browser waits for a first touch.',
} as const;

/** On the button beside the one that is shown. */
export function sayBefore(count: number): string {
  return `And ${count} before`;
}

/** The same where there is little room: '+2'. */
export function sayBeforeShort(count: number): string {
  return `+${count}`;
}

/** @param clock the time of day at which it was called out; `seen` the one at which it was seen */
export function sayWhen(clock: string, moment: string): string {
  return `${moment}, at ${clock}`;
}

export function sayAlertState(
  state: 'open' | 'seen' | 'replaced' | 'over',
  seenAt: string | null,
): string {
  switch (state) {
    case 'open':
      return 'not seen yet';
    case 'seen':
      return seenAt === null ? 'seen' : `seen at ${seenAt}`;
    case 'replaced':
      return 'a newer one took its place';
    case 'over':
      return 'no longer so';
  }
}

export const REACH_WORDS = {
  title: 'How alerts reach you',
  menu: 'Sound, and how loud; vibration, speech, notifications.',
  help: 'The page shows an alert, and so do its title and icon. Beyond that:',
  sound: 'Sound',
  volume: 'How loud',
  repeat: 'Call',
  check: 'Check the sound',
  heard: 'Did that reach where you will stand?',
  yes: 'Yes, clearly',
  no: 'No',
  fine: 'Then it calls you like that.',
  louder:
    'Make it louder here and on the computer itself, try another sound, or put a speaker out of the van. Calling until seen helps too.',
  vibrate: 'Vibrate, on a phone that can',
  speak: 'Say it aloud as well',
  trySpeech: 'Say something',
  speechSample: { title: 'Speech is on', detail: 'Alerts are read out like this.' },
  ask: 'Allow system notifications',
  blocked: 'No alert can be heard yet: the browser wants this page touched once.',
  unblock: 'Let it sound',
} as const;

export const SOUND_LABELS = {
  off: 'none',
  bell_buoy: 'Bell buoy',
  call_pipe: 'Call pipe',
  rivet_hammer: 'Rivet hammer',
  two_terns: 'Two terns',
} as const;

export const REPEAT_LABELS = { once: 'once', until_seen: 'every 15 s until seen' } as const;

export function sayPermission(permission: 'default' | 'granted' | 'denied' | 'none'): string {
  switch (permission) {
    case 'default':
      return 'Not asked yet.';
    case 'granted':
      return 'Allowed.';
    case 'denied':
      return 'Refused: change it in the browser’s settings for this address.';
    case 'none':
      return 'This browser has none.';
  }
}

/** Empty where there is nothing to be said. */
export function saySoundState(state: 'unknown' | 'blocked' | 'ready' | 'none'): string {
  if (state === 'blocked') return REACH_WORDS.blocked;
  return state === 'none' ? 'This browser makes no sound.' : '';
}

export function sayVolume(volume: number): string {
  return `${Math.round(volume * 100)}\u00a0%`;
}
