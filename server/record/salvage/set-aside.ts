/**
 * Sets a damaged record aside, whole and under a name with the date, and puts in its place what could be read of
 * it. Nothing of it is ever deleted, and nothing is moved before the new record is complete.
 */
import { existsSync, mkdirSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { basename, join } from 'node:path';
import type { SalvageNote } from '../../../protocol/salvage-note.ts';
import { RECORD_FILE } from '../open-database.ts';
import { salvage } from './salvage.ts';

export interface SetAside extends SalvageNote {
  /** Where the damaged files lie now. */
  readonly folder: string;
}

const NAME = 'record.damaged-';
const PARTS = ['', '-wal', '-shm'] as const;
/** Of a log that holds anything. */
const LOG_HEADER_BYTES = 32;

/** @throws where there is no room for the new record: then nothing has been moved */
export function setAside(dataFolder: string, nowMs: number): SetAside {
  const file = join(dataFolder, RECORD_FILE);
  const fresh = freshOf(file);
  removeFresh(fresh);
  const folder = freeName(dataFolder, nowMs);
  try {
    const salvaged = salvage(file, fresh, basename(folder), nowMs);
    moveInto(folder, file);
    renameSync(fresh, file);
    return { ...salvaged, folder };
  } catch (error) {
    if (existsSync(file)) removeFresh(fresh);
    throw error;
  }
}

/** The power went between the last two steps: the new record is complete, the old one is away. */
export function finishSettingAside(dataFolder: string, nowMs: number): void {
  const file = join(dataFolder, RECORD_FILE);
  if (existsSync(file) || !existsSync(freshOf(file))) return;
  moveInto(freeName(dataFolder, nowMs), file);
  renameSync(freshOf(file), file);
}

/** Those of earlier damages, the oldest first. */
export function damagedFolders(dataFolder: string): string[] {
  if (!existsSync(dataFolder)) return [];
  return readdirSync(dataFolder)
    .filter((name) => name.startsWith(NAME))
    .sort()
    .map((name) => join(dataFolder, name));
}

/** A log without its database, or with an empty one: SQLite would begin anew and delete it. */
export function hasOnlyLog(dataFolder: string): boolean {
  const file = join(dataFolder, RECORD_FILE);
  return sizeOf(file) === 0 && sizeOf(`${file}-wal`) > LOG_HEADER_BYTES;
}

function sizeOf(path: string): number {
  return statSync(path, { throwIfNoEntry: false })?.size ?? 0;
}

function freshOf(file: string): string {
  return `${file}.salvaged`;
}

function removeFresh(fresh: string): void {
  for (const path of [fresh, `${fresh}-journal`]) rmSync(path, { force: true });
}

/** The database first: while it is away, `finishSettingAside` knows what there is to do. */
function moveInto(folder: string, file: string): void {
  const there = PARTS.map((part) => `${file}${part}`).filter((path) => existsSync(path));
  if (there.length === 0) return;
  mkdirSync(folder, { recursive: true });
  for (const path of there) renameSync(path, join(folder, basename(path)));
}

/** `record.damaged-2026-03-01T17-03-11`, by the world's time. */
function freeName(dataFolder: string, nowMs: number): string {
  const stamp = new Date(nowMs).toISOString().slice(0, 19).replaceAll(':', '-');
  const name = join(dataFolder, `${NAME}${stamp}`);
  for (let more = 1; ; more += 1) {
    const candidate = more === 1 ? name : `${name}-${more}`;
    if (!existsSync(candidate)) return candidate;
  }
}
