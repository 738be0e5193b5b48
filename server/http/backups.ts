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

const BACKUP = {
  summary: 'The whole record as one SQLite file, as it stands now, also while it is recording.',
  more: 'The copy is made and looked through first: the first byte comes after some seconds.',
  answer: { status: 200, content: { [RECORD_MEDIA_TYPE]: null }, isDownload: true },
  problems: ['backup_failed'],
} as const;
const RESTORE = {
  summary: 'Adds the recordings of a backup to the record; what is here already is left out.',
  more:
    'Into an empty record they come with their numbers and hashes. Else each gets a number of its own and the fact ' +
    'of where it was taken from. Of each recording comes all or nothing, and what was not restored is said.',
  body: { [RECORD_MEDIA_TYPE]: null },
  answer: { status: 200, content: json(restoredSchema) },
  problems: ['bad_backup', 'backup_too_large', 'record_from_newer_version'],
} as const;

export function serveBackups(server: FastifyInstance, backups: BackupAccess): void {
  server.get('/api/backup', described(BACKUP), async (_request, reply) => {
    const { file, bytes, atMs, remove } = await backups.make();
    const sent = createReadStream(file);
    sent.once('close', remove);
    return reply
      .header('content-type', RECORD_MEDIA_TYPE)
      .header('content-length', bytes)
      .headers(asDownload(backupName(atMs)))
      .send(sent);
  });

  // In a scope of its own: nothing else takes a body of this kind.
  void server.register((scope, _options, done) => {
    scope.addContentTypeParser(RECORD_MEDIA_TYPE, (_request, body, parsed) => parsed(null, body));
    scope.post('/api/restore', described(RESTORE), (request) => {
      const body = z.instanceof(Readable).parse(request.body);
      return backups.restore((file) => keep(body, file));
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
