import { BLANK_CHANNEL, BLANK_SEND } from "../../core/model/defaults";
import { nextId, uniqueName } from "../../core/model/ids";
import type { Channel, Id } from "../../core/model/setup";
import type { Pan } from "../../core/model/units";
import { amend, amendIn, insertAfter, kept, mapped, movePast } from "../amend";
import { type Command, during, type EditCommand, edit, fieldsOf, step } from "../command";
import { LIMITS } from "../limits";
import { mend } from "../mend";
import type { SetupFile } from "../schema";

const isFull = (file: SetupFile): boolean => file.channels.length >= LIMITS.channels;

/**
 * A new drum microphone at the end, sent at 0 dB into a bus. Nothing happens beyond `LIMITS.channels`.
 * @param into the bus's id; null leaves it in no bus
 */
export const addChannel = (into: Id | null): Command =>
  step("add channel", (file) => {
    if (isFull(file)) return file;
    const channel: Channel = {
      ...BLANK_CHANNEL,
      id: nextId("s", file.channels),
      name: uniqueName("Channel", file.channels),
      kind: "drum",
    };
    return {
      ...file,
      channels: [...file.channels, channel],
      buses: mapped(file.buses, (bus) =>
        bus.id === into ? { ...bus, sends: [...bus.sends, { ...BLANK_SEND, channel: channel.id }] } : bus,
      ),
    };
  });

/** A copy of a channel right behind it, in the same buses. It takes no input and no measured figures along. */
export const duplicateChannel = (id: Id): Command =>
  step("duplicate channel", (file) => {
    const channel = file.channels.find((s) => s.id === id);
    if (!channel || isFull(file)) return file;
    const copy: Channel = {
      ...channel,
      id: nextId("s", file.channels),
      name: uniqueName(channel.name, file.channels),
    };
    return {
      ...file,
      channels: insertAfter(file.channels, id, copy),
      buses: mapped(file.buses, (bus) => {
        const send = bus.sends.find((s) => s.channel === id);
        return send ? { ...bus, sends: [...bus.sends, { ...send, channel: copy.id }] } : bus;
      }),
    };
  });

/** Takes a channel away with its sends, inputs and measured figures. The piece stays: a drum without a microphone still stands there. */
export const removeChannel = (id: Id): Command =>
  step("remove channel", (file) =>
    mend(amend(file, { channels: kept(file.channels, (channel) => channel.id !== id) })),
  );

/** Moves a channel in the list to the other side of another: of its neighbour among those that are shown. */
export const moveChannel = (id: Id, past: Id): Command =>
  step("move channel", (file) => amend(file, { channels: movePast(file.channels, id, past) }));

/** Changes what is said of a channel. A stereo channel made mono frees nothing: its inputs take the one channel. */
export const editChannel = (id: Id, patch: Partial<Omit<Channel, "id">>): EditCommand =>
  edit("change channel", `channel ${id} ${fieldsOf(patch)}`, (file) =>
    mend(amend(file, { channels: amendIn(file.channels, id, patch) })),
  );

/** Changes what is said of several channels as one step, each by a patch of its own. */
export const editChannels = (
  ids: readonly Id[],
  patchOf: (channel: Channel) => Partial<Omit<Channel, "id">>,
): Command =>
  step("change channels", (file) =>
    mend(
      amend(file, {
        channels: mapped(file.channels, (channel) =>
          ids.includes(channel.id) ? amend<Channel>(channel, patchOf(channel)) : channel,
        ),
      }),
    ),
  );

/** One move of a channel pan under the finger, −1…+1. */
export const dragPan = (id: Id, pan: Pan): Command =>
  during(
    edit("pan", `channel ${id} pan`, (file) =>
      amend(file, { channels: amendIn(file.channels, id, { pan }) }),
    ),
  );
