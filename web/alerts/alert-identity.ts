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
};

export function aboutOf({ kind }: AlertFact): About {
  return ABOUT[kind];
}

/** That of one screen alone: nobody else can see to it. */
export function isOwn({ kind }: AlertFact): boolean {
  return kind === 'device_battery';
}

/**
 * The same on every page, however each came to it: one that was opened later calls a verdict the first
 * of a hold that another page saw change.
 */
export function keyOf(fact: AlertFact, channel: number): string {
  const verdict = fact.kind === 'verdict' || fact.kind === 'verdict_changed';
  return verdict ? `${channel}/verdict/${fact.verdict}` : `${channel}/${fact.kind}`;
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
