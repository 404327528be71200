type Holder = { readonly lost: (error: Error) => void };

/** Web Locks for one name, by the specification's algorithm as far as it is used: queue, ifAvailable, steal. */
export const fakeLocks = (): Pick<LockManager, "request"> & { readonly waiting: () => number } => {
  let holder: Holder | null = null;
  const queue: (() => void)[] = [];
  const next = (): void => {
    if (holder === null) queue.shift()?.();
  };
  const request = (_: string, options: LockOptions, run: (lock: unknown) => unknown): Promise<unknown> =>
    new Promise((resolve, reject) => {
      const grant = (): void => {
        const mine: Holder = { lost: reject };
        holder = mine;
        const done = (): void => {
          if (holder === mine) holder = null;
          next();
        };
        Promise.resolve(run({})).then(resolve, reject).finally(done);
      };
      if (options.steal) {
        holder?.lost(new DOMException("stolen", "AbortError"));
        grant();
      } else if (holder === null) grant();
      else if (options.ifAvailable) Promise.resolve(run(null)).then(resolve, reject);
      else queue.push(grant);
    });
  return { request: request as LockManager["request"], waiting: () => queue.length };
};

type Channel = Pick<BroadcastChannel, "postMessage" | "onmessage">;

/** Channels that hear each other but not themselves. */
export const fakeChannels = (): (() => Channel) => {
  const all: Channel[] = [];
  return () => {
    const channel: Channel = {
      onmessage: null,
      postMessage: (data) => {
        for (const other of all) {
          if (other !== channel)
            queueMicrotask(() => other.onmessage?.call(other as BroadcastChannel, { data } as MessageEvent));
        }
      },
    };
    all.push(channel);
    return channel;
  };
};
