/** One browser with one page of 390 × 844 or so: what the smoke scenario needs, and no more. */
export interface Driver {
  readonly name: string;
  open(url: string): Promise<void>;
  reload(): Promise<void>;
  /** Clicks the first element that a CSS selector finds. */
  click(selector: string): Promise<void>;
  /** Types key by key into a field, over what stood there. */
  type(selector: string, text: string): Promise<void>;
  /** Text of the first element that a selector finds; "" where there is none. */
  text(selector: string): Promise<string>;
  /** Result of a function body, which may await, run in the page. */
  run<T>(body: string): Promise<T>;
  /**
   * Opens another page of the same origin beside this one, where there must be one at `url`, and runs a function body in
   * it; the answer closes it. Not every engine can.
   */
  readonly beside?: (url: string, body: string) => Promise<() => Promise<void>>;
  /** Console and uncaught errors, what the policy stopped and what left the origin since this was last asked. */
  faults(): readonly string[];
  close(): Promise<void>;
}

/** Starts one engine. */
export type Start = () => Promise<Driver>;

/** Patience with a busy machine, ms. */
const WAIT_MS = 60_000;

/** Waits until a function body run in the page gives something true. */
export const until = async (driver: Driver, body: string, what: string): Promise<void> => {
  const deadline = Date.now() + WAIT_MS;
  while (Date.now() < deadline) {
    if (await driver.run<boolean>(body)) return;
    await new Promise((done) => setTimeout(done, 100));
  }
  throw new Error(`${driver.name}: ${what} did not come`);
};
