/** What an alert is known by, on every page, and what it is about: pure. */
import type { SeenAlert } from '../../protocol/seen-alert.ts';
import type { AlertFact, AlertKind } from '../words/alert-fact.ts';
import type { About } from './alert-situation.ts';

const ABOUT: Readonly<Record<AlertKind, About>> = {
  target: 'target',
  // Another end of the same wait.
  levels_off: 'target',
  depth: 'depth',
  ballast_open: 'ballast',
  pump_battery: 'pump_battery',
  verdict: 'verdict',
  verdict_changed: 'verdict',
  vacuum_lost: 'vacuum',
  sensor_battery: 'battery',
  sensor_lost: 'sensor',
  sensor_back: 'sensor',
  device_battery: 'device',
  bridge_lost: 'bridge',
  bridge_back: 'bridge',
};

export function aboutOf({ kind }: AlertFact): About {
  return ABOUT[kind];
}

/** That of one screen alone: nobody else can see to it. */
export function isOwn({ kind }: AlertFact): boolean {
  return kind === 'device_battery' || kind === 'bridge_lost' || kind === 'bridge_back';
}

/**
 * The same on every page, however each came to it: one that was opened later calls a verdict the first
 * of a hold that another page saw change.
 */
export function keyOf(fact: AlertFact, channel: number): string {
  const verdict = fact.kind === 'verdict' || fact.kind === 'verdict_changed';
  return verdict ? `${channel}/verdict/${fact.verdict}` : `${channel}/${fact.kind}`;
}

/**
 * Pages judge at moments of their own, so that what one calls the beginning another may put this much later,
 * s. Two episodes of the same lie further apart. A setting of ours.
 */
const SAME_EPISODE_S = 120;

/**
 * Data time up to which an alert of the same counts as seen with this one. Not the moment of the press: an
 * alert that stood for hours says nothing of the hold that has begun meanwhile.
 */
export function seenUntilS({ atS, sinceS }: AlertFact): number {
  return Math.max(atS, sinceS) + SAME_EPISODE_S;
}

/** Whoever saw the same after that had begun which it is about has seen this one. */
export function seenBy(
  fact: AlertFact,
  channel: number,
  seen: readonly SeenAlert[],
): SeenAlert | undefined {
  if (isOwn(fact)) return undefined;
  const key = keyOf(fact, channel);
  return seen.find(({ alert, untilS }) => alert === key && untilS >= fact.sinceS);
}
