import { withBusSwapped } from "../../core/mix/pair-order";
import { BLANK_BUS, BLANK_SEND } from "../../core/model/defaults";
import { nextId, uniqueName } from "../../core/model/ids";
import type { Bus, Id, Send } from "../../core/model/setup";
import type { Db } from "../../core/model/units";
import { amend, amendIn, insertAfter, kept, mapped } from "../amend";
import { type Command, type EditCommand, edit, fieldsOf, step } from "../command";
import { LIMITS } from "../limits";
import { mend } from "../mend";
import type { SetupFile } from "../schema";
import { withoutStaleTicks } from "../ticks";

const isFull = (file: SetupFile): boolean => file.buses.length >= LIMITS.buses;

/** A new empty bus: a pair, or mono. Nothing happens beyond `LIMITS.buses`. */
export const addBus = (stereo: boolean, name = "Bus"): Command =>
  step("add bus", (file) =>
    isFull(file)
      ? file
      : {
          ...file,
          buses: [
            ...file.buses,
            { ...BLANK_BUS, id: nextId("m", file.buses), name: uniqueName(name, file.buses), stereo },
          ],
        },
  );

/** A copy of a bus right behind it, with the same sends; nobody hears it yet and it takes no inputs. */
export const duplicateBus = (id: Id): Command =>
  step("duplicate bus", (file) => {
    const bus = file.buses.find((s) => s.id === id);
    if (!bus || isFull(file)) return file;
    // What was measured was the other one.
    const { measured: _, ...rest } = bus;
    const copy = { ...rest, id: nextId("m", file.buses), name: uniqueName(bus.name, file.buses) };
    return { ...file, buses: insertAfter(file.buses, id, copy) };
  });

/** Takes a bus away; its inputs are free then and who heard it hears none. */
export const removeBus = (id: Id): Command =>
  step("remove bus", (file) => mend(amend(file, { buses: kept(file.buses, (bus) => bus.id !== id) })));

/** Changes what is said of a bus. A pair made mono frees the input of its right side. */
export const editBus = (id: Id, patch: Partial<Omit<Bus, "id">>): EditCommand =>
  edit("change bus", `bus ${id} ${fieldsOf(patch)}`, (file) =>
    mend(amend(file, { buses: amendIn(file.buses, id, patch) })),
  );

const withSend = (
  file: SetupFile,
  id: Id,
  channel: Id,
  patch: Partial<Omit<Send, "channel">> | null,
): SetupFile => {
  if (!file.channels.some((s) => s.id === channel)) return file;
  const buses = mapped(file.buses, (bus) => {
    if (bus.id !== id) return bus;
    if (patch === null) return amend(bus, { sends: kept(bus.sends, (send) => send.channel !== channel) });
    const sends = bus.sends.some((send) => send.channel === channel)
      ? mapped(bus.sends, (send) => (send.channel === channel ? amend(send, patch) : send))
      : [...bus.sends, amend<Send>({ ...BLANK_SEND, channel }, patch)];
    return amend(bus, { sends });
  });
  return amend(file, { buses });
};

/** Changes a channel's way into a bus; puts it in at 0 dB following the channel pan where it was not; null takes it out. */
export const setSend = (bus: Id, channel: Id, patch: Partial<Omit<Send, "channel">> | null): EditCommand =>
  edit(
    patch === null ? "remove from bus" : "change send",
    `send ${bus} ${channel} ${fieldsOf(patch)}`,
    (file) => withSend(file, bus, channel, patch),
  );

/** Changes the ways of several channels into a bus as one step; puts in what was not, null takes them out. */
export const setSends = (
  bus: Id,
  channels: readonly Id[],
  patch: Partial<Omit<Send, "channel">> | null,
): Command =>
  step(patch === null ? "remove channels from bus" : "change sends", (file) =>
    channels.reduce((now, channel) => withSend(now, bus, channel, patch), file),
  );

/** Several sends brought to new levels, dB, as one step; null is off. */
export const lowerSends = (
  bus: Id,
  sends: readonly { readonly channel: Id; readonly to: Db | null }[],
): Command =>
  step("lower sends", (file) =>
    sends.reduce((now, { channel, to }) => withSend(now, bus, channel, { level: to }), file),
  );

/**
 * Swaps a pair: its sides change inputs (each input keeps its trim and switch) and the plan says so.
 * A pair of which a side has no input is only planned the other way round. A mono bus has nothing to swap.
 */
export const swapBus = (id: Id): Command =>
  step("swap L/R", (file) => {
    const bus = file.buses.find((s) => s.id === id);
    return bus?.stereo ? withoutStaleTicks(file, withBusSwapped(file, bus)) : file;
  });
