import type { Id, Setup, Sum } from "./setup";

/** A setup with one sum changed; as it is where it has no such sum. */
export const withSum = <T extends Pick<Setup, "sums">>(setup: T, id: Id, change: (sum: Sum) => Sum): T => ({
  ...setup,
  sums: setup.sums.map((sum) => (sum.id === id ? change(sum) : sum)),
});
