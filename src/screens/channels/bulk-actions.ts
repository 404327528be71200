import { CHANNEL_KINDS } from "../../core/model/kinds";
import type { Bus, ChannelKind, Colour, SendTap, Setup, TapPoint } from "../../core/model/setup";
import { amend } from "../../document/amend";
import { setSends } from "../../document/commands/buses";
import { editChannels } from "../../document/commands/channels";
import { COLOUR_NAMES } from "../../text/colours";
import { busName } from "../../text/names";
import { TAP_NAMES } from "../../text/taps";
import type { BulkAction, BulkActions } from "../bulk/action";

const entries = <K extends string>(names: { readonly [key in K]: string }) =>
  Object.entries(names) as [K, string][];

const NO_COLOUR = "none";

const KIND: BulkAction = {
  id: "kind",
  label: "Kind",
  options: entries(CHANNEL_KINDS),
  valueOf: (channel) => channel.kind,
  apply: (ids, kind) => editChannels(ids, () => ({ kind: kind as ChannelKind })),
};

/** The rest that is the same whatever buses there are. */
const OF_CHANNELS: readonly BulkAction[] = [
  {
    id: "tap",
    label: "Direct out tap point",
    options: entries(TAP_NAMES),
    valueOf: ({ directOut }) => directOut.tap,
    apply: (ids, tap) =>
      editChannels(ids, ({ directOut }) => ({ directOut: amend(directOut, { tap: tap as TapPoint }) })),
  },
  {
    id: "on",
    label: "Direct out",
    options: [
      ["on", "on"],
      ["off", "off"],
    ],
    valueOf: ({ directOut }) => (directOut.on ? "on" : "off"),
    apply: (ids, on) =>
      editChannels(ids, ({ directOut }) => ({ directOut: amend(directOut, { on: on === "on" }) })),
  },
  {
    id: "colour",
    label: "Colour",
    options: [[NO_COLOUR, "none"], ...entries(COLOUR_NAMES)],
    valueOf: ({ colour }) => colour ?? NO_COLOUR,
    apply: (ids, colour) =>
      editChannels(ids, () => ({ colour: colour === NO_COLOUR ? null : (colour as Colour) })),
  },
  {
    id: "mute",
    label: "Mute",
    options: [
      ["muted", "muted"],
      ["open", "not muted"],
    ],
    valueOf: ({ muted }) => (muted ? "muted" : "open"),
    apply: (ids, muted) => editChannels(ids, () => ({ muted: muted === "muted" })),
  },
];

const OUT = "out";

/** In a bus or not, and where the send is taken. */
const ofBus = (bus: Bus): BulkAction => {
  const taps = new Map(bus.sends.map((send) => [send.channel, send.tap]));
  return {
    id: `bus ${bus.id}`,
    label: `Send to ${busName(bus)}`,
    options: [
      ["post-fader", TAP_NAMES["post-fader"]],
      ["pre-fader", TAP_NAMES["pre-fader"]],
      [OUT, "not in it"],
    ],
    valueOf: ({ id }) => taps.get(id) ?? OUT,
    apply: (ids, tap) => setSends(bus.id, ids, tap === OUT ? null : { tap: tap as SendTap }),
  };
};

/** What can be set on several channels of a setup. */
export const bulkActions = ({ buses }: Pick<Setup, "buses">): BulkActions => [
  KIND,
  ...buses.map(ofBus),
  ...OF_CHANNELS,
];
