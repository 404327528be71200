import { describe, expect, it } from "vitest";
import { once, remembered } from "../../../src/core/lib/memo";

describe("what is worked out once", () => {
  it("a value is kept from the first look on, and not made before", () => {
    let made = 0;
    const value = once(() => {
      made += 1;
      return { made };
    });
    expect(made).toBe(0);
    expect(value()).toBe(value());
    expect(made).toBe(1);
  });

  it("an answer is the same object each time, for each key its own", () => {
    const answer = remembered((key: { readonly of: number }) => ({ twice: 2 * key.of }));
    const [two, three] = [{ of: 2 }, { of: 3 }];
    expect(answer(two)).toBe(answer(two));
    expect([answer(two), answer(three)]).toEqual([{ twice: 4 }, { twice: 6 }]);
  });
});
