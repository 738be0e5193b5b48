/** The web server: pages, API and the stream's WebSocket, on loopback; and on the local network, where it is shared. */
import fastifyStatic from '@fastify/static';
import Fastify from 'fastify';
import type { FastifyInstance } from 'fastify';
import type { WebSocket } from 'ws';
import type { z } from 'zod';
import { healthSchema } from '../../protocol/api.ts';
import { ProblemError } from '../../protocol/problems.ts';
import { serveApiDocument } from './api-document.ts';
import { serveBackups } from './backups.ts';
import type { BackupAccess } from './backups.ts';
import { described, json } from './described.ts';
import { Exchanges } from './exchanges.ts';
import { serveImports } from './imports.ts';
import type { ReadIn, ReadInWhole } from './imports.ts';
import { guard } from './guard.ts';
import { type JobAccess, serveJobs } from './jobs.ts';
import { boundConnections } from './loopback-connections.ts';
import { type PreparedSheetAccess, servePreparedSheets } from './prepared-sheets.ts';
import { answerProblems } from './problem-answers.ts';
import { serveRecordings } from './recordings.ts';
import type { RecordAccess } from './record-access.ts';
import { serveRehearsals } from './rehearsals.ts';
import type { RehearsalAccess } from './rehearsals.ts';
import { serveReport } from './report.ts';
import { serveSensorLabels } from './sensor-labels.ts';
import type { SensorLabelAccess } from './sensor-labels.ts';
import { SharedDoor } from './shared-door.ts';
import { serveSharing } from './sharing.ts';
import type { SharingAccess } from './sharing-access.ts';
import { StreamSockets } from './stream-sockets.ts';
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
  /** Null: not with anybody. */
  readonly sharing: SharingAccess | null;
  readonly log: (line: string) => void;
}

export interface WebServer {
  /**
   * Begins to listen on this computer.
   * @returns the port, which the system chose where 0 was asked for
   * @throws ProblemError `port_taken`
   */
  listen(port: number): Promise<number>;
  /**
   * Begins to listen on the local network.
   * @throws ProblemError `share_port_taken`
   */
  share(port: number): Promise<void>;
  /** Where it is shared now. */
  sharedAt(): { readonly addresses: readonly string[]; readonly fingerprint: string };
  close(): Promise<void>;
}

const LOOPBACK = '127.0.0.1';
const MOST_BODY_BYTES = 64 * 1024;
/** Until all of a request's head is there; how long its body may take is looked at by how it comes. */
const HEAD_LIMITS = { headersTimeout: 10_000, connectionsCheckingInterval: 5000 };

export async function createWebServer(options: WebServerOptions): Promise<WebServer> {
  const server = Fastify({
    bodyLimit: MOST_BODY_BYTES,
    forceCloseConnections: true,
    http: HEAD_LIMITS,
  });
  answerProblems(server);
  const exchanges = new Exchanges(server);
  boundConnections(server.server, () => exchanges.busy());
  let door: SharedDoor | null = null;
  guard(server, () => door);
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
  serveSharing(server, () => door);
  const streams = new StreamSockets(options.onScreen, () => door);
  server.server.on('upgrade', streams.upgrade);
  server.addHook('onClose', () => streams.close());
  await server.register(fastifyStatic, { root: options.pageFolder });
  if (options.sharing !== null) {
    const { sharing: access, log } = options;
    door = new SharedDoor({ access, server, upgrade: streams.upgrade, log });
  }
  return {
    listen: (port) => listenOnLoopback(server, port),
    share: async (port) => door?.open(port),
    sharedAt: () => ({
      addresses: door?.addresses() ?? [],
      fingerprint: door?.fingerprint() ?? '',
    }),
    close: async () => {
      await door?.close();
      await server.close();
    },
  };
}

async function listenOnLoopback(server: FastifyInstance, port: number): Promise<number> {
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
