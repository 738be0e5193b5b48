/** What there is to say of a step beyond its name: the clock of the hold, the battery, the order of the valves. */
import type { StepId } from '../../protocol/ticked-steps.ts';
import { pumpBattery } from '../analysis/pull-down/pump-battery.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { speech } from '../store/speech.ts';
import { sayDuration } from '../words/say-duration.ts';
import { saySetting } from '../words/say-pressure.ts';
import { saySheetValue } from '../words/say-sheet-value.ts';
import { sayPumpBattery, sayValveOrder } from '../words/say-steps.ts';

/** @param isOpen it is not done yet */
export function stepRemarks(id: StepId, followed: FollowedRecording, isOpen: boolean): string[] {
  const sheet = followed.sheet.value;
  const conclusions = followed.conclusions.value;
  const { steps: words, verdict: verdicts } = speech.value.wording;
  const rise = conclusions?.rise ?? null;
  if (id === 'target') return [saySetting(sheet.targetPa, speech.value)];
  if (id === 'depth') return [saySetting(sheet.isolateAtPa, speech.value)];
  if (id === 'hold') {
    const rule = saySheetValue(sheet, 'passRule', speech.value);
    const [held, whole] = [sayDuration(rise?.heldS ?? 0), sayDuration(sheet.holdS)];
    return [words.clock({ held, whole, rule })];
  }
  if (id === 'verdict') return rise === null ? [] : [verdicts.names[rise.verdict]];
  if (id === 'valves_opened' && isOpen) return sayValveOrder(sheet, speech.value);
  if (id === 'pull_down' && isOpen && conclusions !== null) {
    const battery = pumpBattery(conclusions, followed.marks.value, sheet);
    return battery === null ? [] : [sayPumpBattery(battery, speech.value)];
  }
  return [];
}
