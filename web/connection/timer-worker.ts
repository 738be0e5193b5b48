/** Counts time in a thread of its own, where a browser doesn't slow it: says when each wait is over. */
import type { TimerOrder } from './steady-timer.ts';

const running = new Map<number, number>();

self.onmessage = ({ data: order }: MessageEvent<TimerOrder>) => {
  if (order.type === 'end') {
    self.clearInterval(running.get(order.id));
    running.delete(order.id);
    return;
  }
  const { id, everyMs } = order;
  running.set(
    id,
    self.setInterval(() => self.postMessage(id), everyMs),
  );
};
