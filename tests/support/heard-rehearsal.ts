/** A rehearsal on a clock that a test moves, and all that it delivers. */
import type { NewMark } from '../../protocol/mark.ts';
import { newMarkSchema } from '../../protocol/mark.ts';
import { READING_FIELDS } from '../../protocol/profile.ts';
import { decode } from '../../protocol/profile-codec.ts';
import { sensorIdentitySchema } from '../../protocol/recording.ts';
import type { SensorIdentity } from '../../protocol/recording.ts';
import { sourceStateSchema } from '../../protocol/source-state.ts';
import type { SourceState } from '../../protocol/source-state.ts';
import { RehearsalSource } from '../../server/sources/rehearsal/rehearsal-source.ts';
import { scenarioNamed } from '../../server/sources/rehearsal/scenario-named.ts';
import type { RawReading, SourceListener } from '../../server/sources/source.ts';
import type { Scenario } from '../../simulators/scenarios/scenario.ts';
import { HandClock } from './hand-clock.ts';

/** Tight and dry. */
export const DRY = scenarioNamed('quarry-road-bakery');

class Heard implements SourceListener {
  readonly identities: SensorIdentity[] = [];
  readonly raw: RawReading[] = [];
  readonly marks: NewMark[] = [];
  readonly states: SourceState[] = [];

  sensor(identity: SensorIdentity): void {
    this.identities.push(sensorIdentitySchema.parse(identity));
  }
  reading(raw: RawReading): void {
    this.raw.push(raw);
  }
  mark(mark: NewMark): void {
    this.marks.push(newMarkSchema.parse(mark));
  }
  state(state: SourceState): void {
    this.states.push(sourceStateSchema.parse(state));
  }
  decoded() {
    return this.raw.map(({ bytes }) => {
      const decoded = decode(READING_FIELDS, bytes);
      if (!decoded.ok) throw new Error(decoded.detail);
      return decoded.values;
    });
  }
}

interface Started {
  readonly rate?: number;
  readonly helper?: boolean;
  readonly seed?: number;
  readonly scenario?: Scenario;
  readonly room?: () => Promise<void>;
}

export function started(options: Started = {}) {
  const clock = new HandClock();
  const source = new RehearsalSource({
    scenario: DRY,
    seed: 1,
    rate: 1,
    helper: true,
    clock,
    ...options,
  });
  const heard = new Heard();
  source.start(heard);
  return { clock, source, heard };
}
