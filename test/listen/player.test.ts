import { describe, expect, it } from "vitest";
import { newPlayer } from "../../src/listen/player";

const sounds = {
  round: { voices: [{ samples: Float32Array.of(0.5, 0.5), at: 0 }], rate: 48_000, length: 2 },
  products: Float64Array.of(0.25),
  views: { foh: [[1, 0]], now: [[0, 1]], repaired: [[1, 0]] },
} as const;

describe("before the first tap", () => {
  it("no audio context is made, whatever else is called", async () => {
    let made = 0;
    const player = newPlayer(sounds, () => {
      made += 1;
      throw new Error("made");
    });
    player.load(sounds);
    player.setLevel(-20);
    player.stop();
    await player.close();
    expect(made).toBe(0);
    await expect(player.play("now")).rejects.toThrow("made");
    expect(made).toBe(1);
  });
});
