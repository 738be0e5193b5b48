/** The API over the record as a whole: a copy of it to take away, and such a copy to be restored. */
import { createReadStream, createWriteStream } from 'node:fs';
import { Readable, Transform } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { ProblemError } from '../../protocol/problems.ts';
import {
  MOST_BACKUP_BYTES,
  RECORD_MEDIA_TYPE,
  type Restored,
  restoredSchema,
} from '../../protocol/restored.ts';
import { described, json } from './described.ts';
import { asDownload, backupName } from './file-name.ts';
import { RoomForFiles } from './room-for-files.ts';

export interface BackupAccess {
  /**
   * Resolves with a copy of the record that was looked through.
   * @throws ProblemError `backup_failed`
   */
  make(): Promise<MadeBackup>;
  /**
   * @param write puts the backup under the name that it is given
   * @throws ProblemError `bad_backup`, `record_from_newer_version`
   */
  restore(write: (file: string) => Promise<void>): Promise<Restored>;
}

interface MadeBackup {
  readonly file: string;
  readonly bytes: number;
  readonly atMs: number;
  /** It was taken away, or nobody wants it any more. */
  readonly remove: () => void;
}

/** Each takes as much of the disk as the record. */
const MOST_COPIES = 2;
const MOST_RESTORED_AT_ONCE = 1;

const BACKUP = {
  summary: 'The whole record as one SQLite file, as it stands now, also while it is recording.',
  more: 'The copy is made and looked through first: the first byte comes after some seconds.',
  answer: { status: 200, content: { [RECORD_MEDIA_TYPE]: null }, isDownload: true },
  problems: ['backup_failed', 'too_many_files'],
} as const;
const RESTORE = {
  summary: 'Adds the recordings of a backup to the record; what is here already is left out.',
  more:
    'Into an empty record they come with their numbers and hashes. Else each gets a number of its own and the fact ' +
    'of where it was taken from. Of each recording comes all or nothing, and what was not restored is said.',
  body: { [RECORD_MEDIA_TYPE]: null },
  answer: { status: 200, content: json(restoredSchema) },
  problems: ['bad_backup', 'backup_too_large', 'record_from_newer_version', 'too_many_files'],
} as const;

export function serveBackups(server: FastifyInstance, backups: BackupAccess): void {
  const copies = new RoomForFiles(MOST_COPIES);
  const copy = { onRequest: copies.onRequest, ...described(BACKUP) };
  server.get('/api/backup', copy, async (request, reply) => {
    const free = copies.keep(request);
    const { file, bytes, atMs, remove } = await backups.make().catch((error: unknown) => {
      free();
      throw error;
    });
    const sent = createReadStream(file);
    sent.once('close', () => {
      remove();
      free();
    });
    return reply
      .header('content-type', RECORD_MEDIA_TYPE)
      .header('content-length', bytes)
      .headers(asDownload(backupName(atMs)))
      .send(sent);
  });

  // In a scope of its own: nothing else takes a body of this kind.
  void server.register((scope, _options, done) => {
    scope.addContentTypeParser(RECORD_MEDIA_TYPE, (_request, body, parsed) => parsed(null, body));
    const room = new RoomForFiles(MOST_RESTORED_AT_ONCE);
    const one = { onRequest: room.onRequest, ...described(RESTORE) };
    scope.post('/api/restore', one, (request) => {
      const body = z.instanceof(Readable).parse(request.body);
      return room.during(request, () => backups.restore((file) => keep(body, file)));
    });
    done();
  });
}

/** What comes goes to the disk as it comes. */
async function keep(body: Readable, file: string): Promise<void> {
  let bytes = 0;
  const counted = new Transform({
    transform(chunk: Buffer, _encoding, done) {
      bytes += chunk.length;
      done(bytes > MOST_BACKUP_BYTES ? new ProblemError('backup_too_large') : null, chunk);
    },
  });
  try {
    await pipeline(body, counted, createWriteStream(file));
  } catch (error) {
    if (error instanceof ProblemError) throw error;
    const message = error instanceof Error ? error.message : String(error);
    throw new ProblemError('bad_backup', message, { cause: error });
  }
}
