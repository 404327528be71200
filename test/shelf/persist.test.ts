import { afterEach, describe, expect, it, vi } from "vitest";

afterEach(() => {
  vi.unstubAllGlobals();
  vi.resetModules();
});

/** As a page that has just been loaded: nothing was asked yet. */
const fresh = async (storage: Partial<StorageManager> | undefined) => {
  vi.stubGlobal("navigator", { storage });
  return import("../../src/shelf/persist");
};

describe("asking the browser to keep the setups", () => {
  it.each([true, false])("is done once, and its answer is known: %s", async (answer) => {
    const persist = vi.fn(async () => answer);
    const { askToKeep, isKept } = await fresh({ persisted: async () => false, persist });
    expect([isKept.value, persist.mock.calls.length]).toEqual([null, 0]);
    await Promise.all([askToKeep(), askToKeep()]);
    await askToKeep();
    expect([isKept.value, persist.mock.calls.length]).toEqual([answer, 1]);
  });

  it("is not needed where it keeps them already", async () => {
    const persist = vi.fn(async () => false);
    const { askToKeep, isKept } = await fresh({ persisted: async () => true, persist });
    await askToKeep();
    expect([isKept.value, persist.mock.calls.length]).toEqual([true, 0]);
  });

  it("is a no where it is refused or cannot be asked", async () => {
    const refused = async () => {
      throw new DOMException("no", "NotAllowedError");
    };
    for (const storage of [
      undefined,
      { persisted: refused },
      { persisted: async () => false, persist: refused },
    ]) {
      vi.resetModules();
      const { askToKeep, isKept } = await fresh(storage);
      await askToKeep();
      expect(isKept.value).toBe(false);
    }
  });
});
