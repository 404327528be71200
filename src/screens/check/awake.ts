import { useEffect } from "preact/hooks";

/** Keeps the screen lit while a check is under way, where the platform can; again after it was locked. */
export const useAwake = (): void => {
  useEffect(() => {
    let lock: WakeLockSentinel | null = null;
    let over = false;
    const take = async () => {
      // The platform takes the lock back when the page is hidden, and says so.
      if (document.visibilityState !== "visible" || !("wakeLock" in navigator) || lock?.released === false)
        return;
      try {
        const got = await navigator.wakeLock.request("screen");
        if (over) await got.release();
        else lock = got;
      } catch {
        // Refused (low battery, no permission): the check works all the same.
      }
    };
    void take();
    document.addEventListener("visibilitychange", take);
    return () => {
      over = true;
      document.removeEventListener("visibilitychange", take);
      void lock?.release();
    };
  }, []);
};

/** A short buzz, so that a wet finger knows it was felt; nothing where the phone cannot. */
export const buzz = (): void => {
  if ("vibrate" in navigator) navigator.vibrate(25);
};
