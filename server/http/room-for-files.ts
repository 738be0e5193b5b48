/**
 * How much of other people's files is taken in or copied at once: each is held in memory or on the disk until it is
 * dealt with, also where whoever sent it is gone. What finds no room is sent away before any of it is read.
 */
import type { FastifyReply, FastifyRequest } from 'fastify';
import { ProblemError } from '../../protocol/problems.ts';

export class RoomForFiles {
  readonly #most: number;
  readonly #sizeOf: (request: FastifyRequest) => number;
  readonly #held = new WeakMap<FastifyRequest, { size: number; isWorkedOn: boolean }>();
  #used = 0;

  /** @param sizeOf what a request takes of the room, in whatever the room is counted in */
  constructor(most: number, sizeOf: (request: FastifyRequest) => number = () => 1) {
    this.#most = most;
    this.#sizeOf = sizeOf;
  }

  /** Of a route, for before its body is read; fails with ProblemError `too_many_files`. */
  readonly onRequest = (
    request: FastifyRequest,
    reply: FastifyReply,
    done: (error?: Error) => void,
  ): void => {
    const held = { size: this.#sizeOf(request), isWorkedOn: false };
    if (this.#used + held.size > this.#most) {
      done(new ProblemError('too_many_files'));
      return;
    }
    this.#used += held.size;
    this.#held.set(request, held);
    reply.raw.once('close', () => {
      if (!held.isWorkedOn) this.#free(held);
    });
    done();
  };

  /** Keeps the place though whoever asked may go away. @returns what gives it back */
  keep(request: FastifyRequest): () => void {
    const held = this.#held.get(request);
    if (held === undefined) throw new Error('this route is not looked at before it is answered');
    held.isWorkedOn = true;
    return () => this.#free(held);
  }

  /** Keeps the place until the work is done. */
  async during<T>(request: FastifyRequest, work: () => Promise<T>): Promise<T> {
    const free = this.keep(request);
    try {
      return await work();
    } finally {
      free();
    }
  }

  #free(held: { size: number }): void {
    this.#used -= held.size;
    held.size = 0;
  }
}
