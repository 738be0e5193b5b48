/** Cautions, each where it belongs in the work. */

/** A step of the day's work. */
export type CautionPlace = 'nitrogen' | 'hook_up' | 'pull_down' | 'rise' | 'closing_up';
