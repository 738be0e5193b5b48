/** The API over what a technician says of sensors: their names and places, remembered. */
import type { FastifyInstance } from 'fastify';
import type { z } from 'zod';
import { givenLabelSchema, sensorLabelListSchema } from '../../protocol/api.ts';
import type { GivenLabel } from '../../protocol/api.ts';
import {
  type Calibration,
  calibrationSchema,
  type NewCalibration,
  newCalibrationSchema,
  newSensorLabelSchema,
  type NewSensorLabel,
} from '../../protocol/sensor-label.ts';
import { ProblemError } from '../../protocol/problems.ts';
import { described, json } from './described.ts';
import { offsetMinutesAt } from './offset-minutes.ts';

export interface SensorLabelAccess {
  /** What was last said of each sensor. */
  list(): GivenLabel[];
  /** Whether a sensor was ever heard, or anybody has said anything of it. */
  knows(sensorId: string): boolean;
  /** Resolves once it is durable and every page has been told. */
  give(label: NewSensorLabel): Promise<GivenLabel>;
  /** The same of the day of its last calibration. */
  calibrate(calibration: NewCalibration): Promise<Calibration>;
}

const LIST = {
  summary: 'What technicians last said of each sensor: its name and where it sits.',
  answer: { status: 200, content: json(sensorLabelListSchema) },
} as const;
const GIVE = {
  summary: 'Says of a sensor what it is called and where it sits.',
  body: json(newSensorLabelSchema),
  answer: { status: 201, content: json(givenLabelSchema) },
} as const;

const CALIBRATE = {
  summary: 'Says when a sensor was last calibrated, as its certificate has it.',
  body: json(newCalibrationSchema),
  answer: { status: 201, content: json(calibrationSchema) },
  problems: ['not_found'],
} as const;

/** No gauge in use was calibrated before and never since; a setting of ours, against a slip of the hand. */
const EARLIEST_DAY = '1950-01-01';

export function serveSensorLabels(
  server: FastifyInstance,
  labels: SensorLabelAccess,
  wallClock: () => number,
): void {
  server.get('/api/sensor-labels', described(LIST), (): z.infer<typeof sensorLabelListSchema> => {
    return { labels: labels.list() };
  });

  server.post('/api/sensor-labels', described(GIVE), async (request, reply) => {
    const given = await labels.give(newSensorLabelSchema.parse(request.body));
    return reply.status(201).send(given);
  });

  server.post('/api/sensor-calibrations', described(CALIBRATE), async (request, reply) => {
    const calibration = newCalibrationSchema.parse(request.body);
    refuseOtherDays(calibration, wallClock());
    if (!labels.knows(calibration.sensorId))
      throw new ProblemError('not_found', `sensor ${calibration.sensorId}`);
    const given = await labels.calibrate(calibration);
    return reply.status(201).send(given);
  });
}

/**
 * Days as ISO 8601 writes them are in the order of their letters.
 * @throws ProblemError `bad_request`
 */
function refuseOtherDays({ calibratedOn }: NewCalibration, nowMs: number): void {
  const today = new Date(nowMs + offsetMinutesAt(nowMs) * 60_000).toISOString().slice(0, 10);
  if (calibratedOn >= EARLIEST_DAY && calibratedOn <= today) return;
  throw new ProblemError(
    'bad_request',
    `calibratedOn: ${calibratedOn} is not between ${EARLIEST_DAY} and today, ${today}; ` +
      'enter the day on the certificate',
  );
}
