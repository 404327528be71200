import type fc from "fast-check";
import type { Parameters } from "fast-check";

type FastCheck = { readonly default: typeof fc };

/** fast-check with another number of cases in every property, whatever the property asks for. */
export const withCases = <R extends FastCheck>(
  real: R,
  change: <T>(given?: Parameters<T>) => Parameters<T> | undefined,
) => {
  const assert = ((property, given) =>
    real.default.assert(property as never, change(given) as never)) as typeof fc.assert;
  return { ...real, assert, default: { ...real.default, assert } };
};
