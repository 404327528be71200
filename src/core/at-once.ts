import { busOf } from "./mix/ear-gains";
import type { Bus, Listener, Setup } from "./model/setup";

/*
 * Which searches are so short that the page does them at once, without holding up anything: under 50 ms on a laptop
 * (`test/bench/limits.mjs` measures the slowest that are). Every other one is run off the page’s thread.
 */

/** Sends of the bus times listeners. */
export const isRecommendationShort = (setup: Setup, bus: Bus): boolean =>
  bus.sends.length * setup.listeners.length <= 512;

/** Channels to be placed times inputs, for plans and ways to free inputs; into fewer than 16 the search is longer. */
export const arePlansShort = ({
  channels,
  inputs,
}: {
  readonly channels: readonly unknown[];
  readonly inputs: number;
}): boolean => channels.length * (inputs < 16 ? 32 : inputs) <= 768;

/** Sends of the listener’s bus times pieces of the kit. */
export const isCheckShort = (setup: Setup, listener: Listener): boolean =>
  (busOf(setup, listener)?.sends.length ?? 0) * setup.kit.pieces.length <= 1024;
