import type { Bus, Listener, Setup } from "../../../src/core/model/setup";
import type { Recommendation } from "../../../src/core/recommend/model";
import { recommend } from "../../../src/core/recommend/recommend";
import { AUDIENCE, DRUMMER, kit } from "./setups";

/** The bus that the recommendations are for. */
export const busOf = (setup: Setup): Bus => setup.buses[0] as Bus;

export const all = (setup: Setup): Recommendation[] => recommend(setup, busOf(setup));

export const ids = (setup: Setup): string[] => all(setup).map((r) => r.id);

export const first = (setup: Setup): Recommendation => all(setup)[0] as Recommendation;

/** A recommendation that must be among the ranked ones. */
export const ranked = (setup: Setup, id: string): Recommendation => {
  const found = all(setup).find((r) => r.id === id);
  if (!found) throw new Error(`not ranked: ${id}, but ${ids(setup).join(" | ")}`);
  return found;
};

/** The bus otherwise. */
export const withBus = (setup: Setup, over: Partial<Bus>): Setup => ({
  ...setup,
  buses: setup.buses.map((s, at) => (at === 0 ? { ...s, ...over } : s)),
});

/** Heard by audience and drummer, and by others. */
export const heardBy = (setup: Setup, ...others: Listener[]): Setup => ({
  ...setup,
  listeners: [AUDIENCE, DRUMMER, ...others],
});

/** Wishes otherwise. */
export const wishing = (setup: Setup, over: Partial<Setup["preferences"]>): Setup => ({
  ...setup,
  preferences: { ...setup.preferences, ...over },
});

/** Everything panned the wrong way for the audience, who matters most; FOH may change. */
export const crossed = (): Setup => ({
  ...kit(),
  channels: kit().channels.map((s) => ({ ...s, pan: -s.pan })),
  preferences: { ...kit().preferences, first: "audience", fohFixed: false },
});
