/**
 * What an address of the API takes and answers, said where it is served: the document at /api/openapi.json is
 * made of it, so that there is no second list to keep in step.
 */
import type { z } from 'zod';
import type { ProblemCode } from '../../protocol/problems.ts';

export interface Described {
  /** One line, in plain English. */
  readonly summary: string;
  /** What more there is to know. */
  readonly more?: string;
  readonly query?: z.ZodObject;
  /** By media type; null where it is a file that no schema describes. */
  readonly body?: Readonly<Record<string, z.ZodType | null>>;
  readonly answer: {
    readonly status: 200 | 201 | 204;
    /** As for a body; JSON where only a schema is given. */
    readonly content?: Readonly<Record<string, z.ZodType | null>>;
    /** Under which name the file comes. */
    readonly isDownload?: true;
  };
  /** Expected failures beside a request of the wrong form. */
  readonly problems?: readonly ProblemCode[];
}

declare module 'fastify' {
  interface FastifyContextConfig {
    described?: Described;
  }
}

/** An answer in JSON. */
export function json(schema: z.ZodType): Readonly<Record<string, z.ZodType>> {
  return { 'application/json': schema };
}

/** Options of a route. */
export function described(said: Described): { readonly config: { readonly described: Described } } {
  return { config: { described: said } };
}
