import { withDrumsIn } from "../../core/inputs/drum-bus";
import { nextId, uniqueName } from "../../core/model/ids";
import type { Channel, Id } from "../../core/model/setup";
import { mapped } from "../amend";
import { type Command, step } from "../command";
import { LIMITS, tooMuch } from "../limits";
import type { SetupFile } from "../schema";

/**
 * New channels at the end, all as one step; a name that is there already gets the next free number. Refused where there
 * would be more than `LIMITS.channels`: then none is added.
 * @param into the bus that drums and percussion are sent into, at 0 dB; null sends none
 */
export const addChannels = (fresh: readonly Omit<Channel, "id">[], into: Id | null): Command => {
  const withThem = (file: SetupFile): SetupFile => {
    const channels = [...file.channels];
    for (const channel of fresh)
      channels.push({ ...channel, id: nextId("s", channels), name: uniqueName(channel.name, channels) });
    const added = channels.slice(file.channels.length);
    const buses = mapped(file.buses, (bus) => (bus.id === into ? withDrumsIn(bus, added) : bus));
    return { ...file, channels, buses };
  };
  const isOver = (file: SetupFile): boolean => file.channels.length + fresh.length > LIMITS.channels;
  return {
    ...step("add channels", (file) => (fresh.length === 0 || isOver(file) ? file : withThem(file))),
    refuses: (file) => (isOver(file) ? tooMuch(withThem(file)) : null),
  };
};
