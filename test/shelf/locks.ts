type Holder = { readonly lost: (error: Error) => void };
type Waiting = { readonly grant: () => void; readonly options: LockOptions };

/** Web Locks for one name, by the specification's algorithm as far as it is used: queue, ifAvailable, steal, signal. */
export const fakeLocks = (): Pick<LockManager, "request"> => {
  let holder: Holder | null = null;
  const queue: Waiting[] = [];
  const next = (): void => {
    if (holder === null) queue.shift()?.grant();
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
      else {
        const waiting = { grant, options };
        queue.push(waiting);
        options.signal?.addEventListener("abort", () => {
          const at = queue.indexOf(waiting);
          if (at >= 0) queue.splice(at, 1);
          if (at >= 0) reject(new DOMException("called off", "AbortError"));
        });
      }
    });
  return { request: request as LockManager["request"] };
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
