import { describe, expect, it } from "vitest";
import { inputProblemOf, inputStateOf, wishes } from "../../src/hear/device";

const track = (settings: Record<string, unknown>) => ({ label: "Interface", getSettings: () => settings });

describe("an input", () => {
  it("is asked for with both channels and nothing done to them, a chosen one by itself", () => {
    const asked = {
      channelCount: 2,
      echoCancellation: false,
      noiseSuppression: false,
      autoGainControl: false,
    };
    expect(wishes(null)).toEqual({ audio: asked });
    expect(wishes("usb")).toEqual({ audio: { ...asked, deviceId: { exact: "usb" } } });
  });

  it("is as the browser says it is, not as it was asked for", () => {
    const settings = { deviceId: "usb", echoCancellation: "remote-only", noiseSuppression: true };
    expect(inputStateOf(track(settings), 44_100)).toEqual({
      device: { id: "usb", name: "Interface" },
      rate: 44_100,
      processing: { echoCancellation: true, noiseSuppression: true, autoGainControl: null },
    });
  });

  it.each([
    ["NotAllowedError", "refused"],
    ["SecurityError", "refused"],
    ["NotFoundError", "none"],
    ["OverconstrainedError", "none"],
    ["NotReadableError", "busy"],
    ["AbortError", "busy"],
    ["TypeError", "failed"],
  ])("that could not be opened for %s is: %s", (name, is) => {
    expect(inputProblemOf(new DOMException("", name))).toBe(is);
  });
});
