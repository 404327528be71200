/** What a cache needs for these tests, in memory. */
export class FakeCache {
  readonly held = new Map<string, Response>();
  readonly match = async (at: string | Request): Promise<Response | undefined> =>
    this.held.get(typeof at === "string" ? at : at.url)?.clone();
  async put(at: string | Request, answer: Response): Promise<void> {
    this.held.set(typeof at === "string" ? at : at.url, answer);
  }
  readonly keys = async (): Promise<Request[]> => [...this.held.keys()].map((url) => new Request(url));
  readonly delete = async (at: string | Request): Promise<boolean> =>
    this.held.delete(typeof at === "string" ? at : at.url);
}

/** Caches of a browser, in memory; they fail while `broken` is true. */
export class FakeCaches {
  broken = false;
  readonly all = new Map<string, FakeCache>();
  readonly #ask = async <T>(answer: () => T): Promise<T> => {
    if (this.broken) throw new DOMException("gone", "UnknownError");
    return answer();
  };
  readonly keys = (): Promise<string[]> => this.#ask(() => [...this.all.keys()]);
  readonly has = (name: string): Promise<boolean> => this.#ask(() => this.all.has(name));
  open = (name: string): Promise<FakeCache> =>
    this.#ask(() => {
      const cache = this.all.get(name) ?? new FakeCache();
      this.all.set(name, cache);
      return cache;
    });
  readonly delete = (name: string): Promise<boolean> => this.#ask(() => this.all.delete(name));
}
