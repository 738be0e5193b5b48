/** The web server: pages, API and the stream's WebSocket, on loopback only. */
import fastifyStatic from '@fastify/static';
import Fastify from 'fastify';
import type { FastifyInstance } from 'fastify';
import { WebSocketServer } from 'ws';
import type { WebSocket } from 'ws';
import type { z } from 'zod';
import { healthSchema } from '../../protocol/api.ts';
import { ProblemError } from '../../protocol/problems.ts';
import { serveApiDocument } from './api-document.ts';
import { serveBackups } from './backups.ts';
import type { BackupAccess } from './backups.ts';
import { described, json } from './described.ts';
import { serveImports } from './imports.ts';
import type { ReadIn, ReadInWhole } from './imports.ts';
import { isFromThisMachine } from './loopback-only.ts';
import { type JobAccess, serveJobs } from './jobs.ts';
import { type PreparedSheetAccess, servePreparedSheets } from './prepared-sheets.ts';
import { answerProblems } from './problem-answers.ts';
import { serveRecordings } from './recordings.ts';
import type { RecordAccess } from './record-access.ts';
import { serveRehearsals } from './rehearsals.ts';
import type { RehearsalAccess } from './rehearsals.ts';
import { serveReport } from './report.ts';
import { serveSensorLabels } from './sensor-labels.ts';
import type { SensorLabelAccess } from './sensor-labels.ts';
import { serveTypedIn } from './typed-in.ts';
import type { TypedInAccess } from './typed-in.ts';

interface WebServerOptions {
  /** Folder of the built page. */
  readonly pageFolder: string;
  readonly health: z.infer<typeof healthSchema>;
  readonly record: RecordAccess;
  readonly wallClock: () => number;
  readonly rehearsals: RehearsalAccess;
  readonly readIn: ReadIn;
  readonly readInWhole: ReadInWhole;
  readonly backups: BackupAccess;
  readonly typedIn: TypedInAccess;
  readonly sensorLabels: SensorLabelAccess;
  readonly preparedSheets: PreparedSheetAccess;
  readonly jobs: JobAccess;
  /** A screen has connected to the stream. */
  readonly onScreen: (socket: WebSocket) => void;
}

const LOOPBACK = '127.0.0.1';
const MOST_BODY_BYTES = 64 * 1024;
const MOST_MESSAGE_BYTES = 4 * 1024;

/** Nothing from outside, nothing inline: the page carries all that it needs. */
const CONTENT_SECURITY_POLICY =
  "default-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; " +
  "frame-ancestors 'none'; base-uri 'none'; form-action 'none'";

export async function createWebServer(options: WebServerOptions): Promise<FastifyInstance> {
  const server = Fastify({ bodyLimit: MOST_BODY_BYTES, forceCloseConnections: true });
  answerProblems(server);
  server.addHook('onRequest', async (request, reply) => {
    if (!isFromThisMachine(request.headers)) {
      return reply.status(403).send({ message: 'Only this machine may talk to the bridge.' });
    }
    return undefined;
  });
  server.addHook('onSend', async (_request, reply) => {
    reply.header('content-security-policy', CONTENT_SECURITY_POLICY);
    reply.header('x-content-type-options', 'nosniff');
    reply.header('referrer-policy', 'no-referrer');
  });
  serveApiDocument(server, options.health.softwareVersion);
  server.get(
    '/api/health',
    described({
      summary: 'Says that the bridge is there, its version, and where its record is kept.',
      answer: { status: 200, content: json(healthSchema) },
    }),
    () => options.health,
  );
  serveRecordings(server, options.record, options.health.softwareVersion, options.wallClock);
  serveBackups(server, options.backups);
  serveReport(server, {
    record: options.record,
    softwareVersion: options.health.softwareVersion,
    wallClock: options.wallClock,
  });
  serveJobs(server, options.jobs);
  serveRehearsals(server, options.rehearsals);
  serveImports(server, options.readIn, options.readInWhole);
  serveTypedIn(server, options.typedIn);
  serveSensorLabels(server, options.sensorLabels, options.wallClock);
  servePreparedSheets(server, options.preparedSheets);
  serveStream(server, options.onScreen);
  await server.register(fastifyStatic, { root: options.pageFolder });
  return server;
}

/**
 * Begins to listen.
 * @returns the port, which the system chose where 0 was asked for
 * @throws ProblemError `port_taken`
 */
export async function listen(server: FastifyInstance, port: number): Promise<number> {
  try {
    const address = await server.listen({ host: LOOPBACK, port });
    return Number(new URL(address).port);
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'EADDRINUSE') {
      throw new ProblemError('port_taken', `port ${port}`, { cause: error });
    }
    throw error;
  }
}

function serveStream(server: FastifyInstance, onScreen: (socket: WebSocket) => void): void {
  const sockets = new WebSocketServer({ noServer: true, maxPayload: MOST_MESSAGE_BYTES });
  server.server.on('upgrade', (request, socket, head) => {
    if (request.url !== '/stream' || !isFromThisMachine(request.headers)) {
      // Nobody else listens to it from here on: a reset would end the bridge, and a peer that stays would keep it.
      socket.on('error', () => socket.destroy());
      socket.on('finish', () => socket.destroy());
      socket.end('HTTP/1.1 403 Forbidden\r\nConnection: close\r\n\r\n');
      return;
    }
    sockets.handleUpgrade(request, socket, head, onScreen);
  });
  server.addHook('onClose', () => sockets.close());
}
