import type { Bus, Id, Setup } from "./setup";

/** A setup with one bus changed; as it is where it has no such sum. */
export const withBus = <T extends Pick<Setup, "buses">>(setup: T, id: Id, change: (bus: Bus) => Bus): T => ({
  ...setup,
  buses: setup.buses.map((bus) => (bus.id === id ? change(bus) : bus)),
});
