/** Frames of the page, timed. */

export function nextFrame(): Promise<number> {
  return new Promise((resolve) => requestAnimationFrame(resolve));
}

/** From frame to frame for so long; how long each took, ms. */
export async function frames(forMs: number, between: () => void): Promise<number[]> {
  const took: number[] = [];
  const beganMs = await nextFrame();
  let lastMs = beganMs;
  while (lastMs - beganMs < forMs) {
    between();
    const nowMs = await nextFrame();
    took.push(nowMs - lastMs);
    lastMs = nowMs;
  }
  return took;
}
