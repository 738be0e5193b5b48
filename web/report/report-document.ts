/**
 * A report as what stands in it, before anybody decides how it looks: the web page and the PDF are written
 * from the same. All text is plain.
 */
import type { Language } from '../../protocol/languages.ts';
import type { SaidConclusion } from '../words/said-conclusion.ts';

export interface Fact {
  readonly name: string;
  readonly value: string;
}

/** `quiet`: what is read once; `caution`: what has to be seen. */
export type Manner = 'plain' | 'quiet' | 'caution';

export type Block =
  /** Before all else: what the report can't be passed off as. */
  | { readonly kind: 'banner'; readonly name: string; readonly statement: string }
  | { readonly kind: 'title'; readonly text: string }
  /** Over a part of a section. */
  | { readonly kind: 'heading'; readonly text: string }
  | { readonly kind: 'paragraph'; readonly text: string; readonly manner: Manner }
  | { readonly kind: 'facts'; readonly facts: readonly Fact[] }
  | ListBlock
  | VerdictBlock
  /** A drawing as SVG, under its title. */
  | { readonly kind: 'figure'; readonly title: string; readonly svg: string }
  /** In groups, as one reads it out to somebody. */
  | { readonly kind: 'hash'; readonly text: string }
  | SignOffBlock;

/** A row for each of many. */
export interface ListBlock {
  readonly kind: 'list';
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

export interface VerdictBlock {
  readonly kind: 'verdict';
  readonly tone: SaidConclusion['tone'];
  readonly headline: string;
  readonly sentences: readonly string[];
  /** The pass rule beside the physics, smaller; null where there is none. */
  readonly rule: {
    readonly headline: string;
    readonly name: string;
    readonly remark: string;
  } | null;
}

/** A row for each who signs; what is empty is written by hand. */
export interface SignOffBlock {
  readonly kind: 'sign_off';
  readonly columns: readonly string[];
  readonly rows: readonly { readonly signer: string; readonly cells: readonly string[] }[];
}

export interface Section {
  readonly heading: string;
  readonly blocks: readonly Block[];
}

/** What stands at the edge of every page, so that stray sheets find their way back. */
export interface Running {
  readonly recording: string;
  readonly software: string;
  /** The beginning of the record's hash; empty where there is none to rely on. */
  readonly hash: string;
  readonly page: (page: number, of: number) => string;
}

export interface ReportDocument {
  readonly language: Language;
  /** Of the document, and of the file that it is printed to. */
  readonly name: string;
  /** For what is no job: large across every page, and at its edge. Null for a job. */
  readonly rehearsal: { readonly stamp: string; readonly edge: string } | null;
  readonly head: readonly Block[];
  readonly sections: readonly Section[];
  readonly running: Running;
}

/** Blocks that may be missing are null. */
export function section(heading: string, ...blocks: readonly (Block | null)[]): Section {
  return { heading, blocks: blocks.filter((block) => block !== null) };
}

/** Nothing where there is nothing to say. */
export function paragraph(text: string, manner: Manner = 'plain'): Block | null {
  return text === '' ? null : { kind: 'paragraph', text, manner };
}

export function factTable(facts: readonly Fact[]): Block {
  return { kind: 'facts', facts };
}

export function listTable(columns: readonly string[], rows: ListBlock['rows']): Block {
  return { kind: 'list', columns, rows };
}
