/** The API over what a technician says of sensors: their names and places, remembered. */
import type { FastifyInstance } from 'fastify';
import type { z } from 'zod';
import type { GivenLabel, sensorLabelListSchema } from '../../protocol/api.ts';
import { newSensorLabelSchema } from '../../protocol/sensor-label.ts';
import type { NewSensorLabel } from '../../protocol/sensor-label.ts';

export interface SensorLabelAccess {
  /** What was last said of each sensor. */
  list(): GivenLabel[];
  /** Resolves once it is durable and every page has been told. */
  give(label: NewSensorLabel): Promise<GivenLabel>;
}

export function serveSensorLabels(server: FastifyInstance, labels: SensorLabelAccess): void {
  server.get('/api/sensor-labels', (): z.infer<typeof sensorLabelListSchema> => {
    return { labels: labels.list() };
  });

  server.post('/api/sensor-labels', async (request, reply) => {
    const given = await labels.give(newSensorLabelSchema.parse(request.body));
    return reply.status(201).send(given);
  });
}
