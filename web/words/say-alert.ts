/** Alerts: they name the value that raised them, and when; and what to do, where there is a thing to do. */
import type { Verdict } from '../../protocol/verdicts.ts';
import type { AlertFact } from './alert-fact.ts';
import { sayMoment, sayRoughDuration } from './say-duration.ts';
import { sayPressure, saySetting } from './say-pressure.ts';
import type { Speech } from './speech.ts';

/** `good`: what was waited for. `act`: a thing to do now. `warning`: something is not as it should be. */
export type AlertTone = 'good' | 'act' | 'warning';

export interface AlertWords {
  readonly tone: AlertTone;
  /** Read from two metres. */
  readonly title: string;
  readonly detail: string;
}

export function sayAlert(alert: AlertFact, rehearsal: boolean, speech: Speech): AlertWords {
  const { alerts: words, verdict: verdicts } = speech.wording;
  const at = sayMoment(alert.atS);
  const place = rehearsal ? words.intoRehearsal({ at }) : words.intoRecording({ at });
  switch (alert.kind) {
    case 'target': {
      const target = saySetting(alert.targetPa, speech);
      return {
        tone: 'good',
        title: words.target({ target }),
        detail: words.targetHow({ target, place }),
      };
    }
    case 'depth':
      return {
        tone: 'act',
        title: words.depth({ depth: saySetting(alert.isolateAtPa, speech) }),
        detail: words.depthHow({ place }),
      };
    case 'levels_off':
      return sayLevelsOff(alert, place, speech);
    case 'ballast_open':
      return { tone: 'act', title: words.ballast, detail: words.ballastHow({ place }) };
    case 'pump_battery':
      return sayPumpBattery(alert.leftS, alert.needsS, speech);
    case 'verdict':
      return {
        tone: alert.verdict === 'tight_dry' ? 'good' : 'warning',
        title: words.verdict({ verdict: words.verdicts[alert.verdict] }),
        detail: words.drawn({ verdict: verdicts.names[alert.verdict], place }),
      };
    case 'verdict_changed':
      return sayChange(alert.verdict, alert.before, place, speech);
    case 'vacuum_lost':
      return sayVacuumLost(alert, place, speech);
    case 'sensor_battery': {
      const sensor = named(alert.sensor, speech);
      return {
        tone: 'warning',
        title: words.sensorBattery({ percent: sayPercent(alert.percent) }),
        detail: words.sensorBatteryHow({ sensor }),
      };
    }
    case 'sensor_lost': {
      const sensor = named(alert.sensor, speech);
      return {
        tone: 'warning',
        title: words.sensorLost({ sensor }),
        detail: words.sensorLostHow({ place }),
      };
    }
    case 'sensor_back': {
      const sensor = named(alert.sensor, speech);
      return {
        tone: 'good',
        title: words.sensorBack({ sensor }),
        detail: words.since({ place }),
      };
    }
    case 'bridge_lost':
      return {
        tone: 'warning',
        title: words.bridgeLost,
        detail: words.bridgeLostHow({ place }),
      };
    case 'bridge_back':
      return {
        tone: 'good',
        title: words.bridgeBack,
        detail: words.bridgeBackHow({ place }),
      };
    case 'device_battery':
      return {
        tone: 'warning',
        title: words.deviceBattery({ percent: sayPercent(alert.percent) }),
        detail: words.deviceBatteryHow,
      };
  }
}

function sayPercent(percent: number): string {
  return `${Math.round(percent)}\u00a0%`;
}

function sayLevelsOff(
  { targetPa, floorPa }: Extract<AlertFact, { kind: 'levels_off' }>,
  place: string,
  speech: Speech,
): AlertWords {
  const words = speech.wording.alerts;
  return {
    tone: 'warning',
    title: words.levelsOff({ target: saySetting(targetPa, speech) }),
    detail:
      floorPa === null
        ? words.levelsOffHow({ place })
        : words.levelsOffNear({ floor: sayPressure(floorPa, speech), place }),
  };
}

function sayPumpBattery(leftS: number, needsS: number | null, { wording }: Speech): AlertWords {
  const words = wording.alerts;
  const left = sayRoughDuration(leftS);
  const title = words.pumpBattery;
  if (needsS === null) {
    const detail = leftS > 0 ? words.pumpBatteryLeft({ left }) : words.pumpBatteryEmpty;
    return { tone: 'act', title, detail };
  }
  const needs = sayRoughDuration(needsS);
  const detail =
    leftS > 0 ? words.pumpBatteryNeeds({ left, needs }) : words.pumpBatteryEmptyNeeds({ needs });
  return { tone: 'act', title, detail };
}

function sayChange(
  verdict: Verdict,
  before: Verdict | null,
  place: string,
  speech: Speech,
): AlertWords {
  const words = speech.wording.alerts;
  return {
    tone: verdict === 'tight_dry' ? 'good' : 'warning',
    title:
      verdict === 'undecided'
        ? words.withdrawn
        : words.verdictNow({ verdict: words.verdicts[verdict] }),
    detail: saySince(before, place, speech),
  };
}

function saySince(before: Verdict | null, place: string, { wording }: Speech): string {
  const { since, sinceNotTight, sinceBefore } = wording.alerts;
  if (before === null) return since({ place });
  if (before === 'tight_dry') return sinceNotTight({ place });
  return sinceBefore({ place, before: wording.verdict.names[before] });
}

function sayVacuumLost(
  { fromPa, toPa }: Extract<AlertFact, { kind: 'vacuum_lost' }>,
  place: string,
  speech: Speech,
): AlertWords {
  const words = speech.wording.alerts;
  const from = sayPressure(fromPa, speech);
  return {
    tone: 'warning',
    title: words.vacuumLost,
    detail:
      toPa === null
        ? words.vacuumLostBeyond({ from, place })
        : words.vacuumLostTo({ from, to: sayPressure(toPa, speech), place }),
  };
}

function named(sensor: string, { wording }: Speech): string {
  return sensor === '' ? wording.alerts.theSensor : sensor;
}
