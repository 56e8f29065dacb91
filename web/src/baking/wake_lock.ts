// Keeps the screen on while a step is timed, where the browser allows it.

export interface WakeLock {
  hold(): void;
  release(): void;
}

export function wakeLock(): WakeLock {
  let wanted = false;
  let held: { release(): Promise<void> } | null = null;
  async function take(): Promise<void> {
    const lock = (navigator as { wakeLock?: { request(kind: "screen"): Promise<{ release(): Promise<void> }> } }).wakeLock;
    if (!wanted || held || !lock || document.visibilityState !== "visible") {
      return;
    }
    try {
      held = await lock.request("screen");
      if (!wanted) {
        await held.release();
        held = null;
      }
    } catch {
      // A low battery or a policy refuses it: the timers go on all the same.
      held = null;
    }
  }
  // The browser lets go when the page is hidden: it is taken again when it is seen.
  document.addEventListener("visibilitychange", () => {
    held = document.visibilityState === "visible" ? held : null;
    void take();
  });
  return {
    hold() {
      wanted = true;
      void take();
    },
    release() {
      wanted = false;
      void held?.release().catch(() => undefined);
      held = null;
    },
  };
}
