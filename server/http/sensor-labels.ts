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
import { described, json } from './described.ts';

export interface SensorLabelAccess {
  /** What was last said of each sensor. */
  list(): GivenLabel[];
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
} as const;

export function serveSensorLabels(server: FastifyInstance, labels: SensorLabelAccess): void {
  server.get('/api/sensor-labels', described(LIST), (): z.infer<typeof sensorLabelListSchema> => {
    return { labels: labels.list() };
  });

  server.post('/api/sensor-labels', described(GIVE), async (request, reply) => {
    const given = await labels.give(newSensorLabelSchema.parse(request.body));
    return reply.status(201).send(given);
  });

  server.post('/api/sensor-calibrations', described(CALIBRATE), async (request, reply) => {
    const given = await labels.calibrate(newCalibrationSchema.parse(request.body));
    return reply.status(201).send(given);
  });
}
