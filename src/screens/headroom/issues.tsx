import { busName } from "../../text/names";
import "./headroom.css";
import { computed, useComputed } from "@preact/signals";
import type { Ceiling } from "../../core/headroom/ceilings";
import type { Bus, Id } from "../../core/model/setup";
import { current, figures } from "../../document/store";
import { describeShort } from "../../text/headroom";
import { Icon } from "../../ui/icon";
import { chooseBus } from "../state";

/** A bus that lacks headroom: the ceiling that decides, and whose send costs most of the peak there. */
interface Flag {
  readonly bus: Bus;
  readonly lowest: Ceiling;
  readonly channel: Id | undefined;
}

const flags = computed<readonly Flag[]>(() =>
  current.value.buses.flatMap((bus) => {
    const its = figures.value.buses.get(bus.id);
    if (!its?.ceilings.some(({ state }) => state === "over" || state === "under target")) return [];
    const { lowest, sides } = its;
    const channel = sides[lowest.side === "left" ? 0 : 1].costliest.peak?.channel;
    return [{ bus, lowest, channel }];
  }),
);

/** The buses that lack headroom; of all, or of one. */
export const shortBuses = (only?: Id | null): readonly Flag[] =>
  flags.value.filter(({ bus }) => only === undefined || bus.id === only);

/** A word that leads to a bus. */
const ToBus = ({ bus, says }: { bus: Bus; says: string }) => (
  // biome-ignore lint/a11y/useValidAnchor: it leads to a place; the click only adds of which bus.
  <a class="to-headroom" href="#headroom" onClick={() => chooseBus(bus.id)}>
    {says}
  </a>
);

/** Which buses lack headroom, in a line for another screen's statement; of all buses, or of one. Nothing where all fit. */
export const BusFlags = ({ only }: { only?: Id | null }) =>
  shortBuses(only).map(({ bus, lowest }) => (
    <ToBus key={bus.id} bus={bus} says={describeShort({ lowest }, bus)} />
  ));

const flagsOf = (channel: Id): readonly Flag[] | null => {
  const its = flags.value.filter((f) => f.channel === channel);
  return its.length > 0 ? its : null;
};

/** On a channel, always the same one: the buses without headroom in which its send costs most. */
export const BusMark = ({ channel }: { channel: Id }) => {
  const its = useComputed(() => flagsOf(channel)).value;
  return (its ?? []).map(({ bus, lowest }) => {
    const over = lowest.state === "over";
    const name = busName(bus);
    return (
      <p key={bus.id} class={`row${over ? " bad" : ""}`}>
        <Icon name={over ? "wrong" : "care"} size={18} />
        <ToBus bus={bus} says={over ? `Clips ${name}` : `Puts ${name} under target`} />
      </p>
    );
  });
};
