import { type BusContent, busContents } from "../core/inputs/bus-contents";
import { firstOfSide, patchedThings } from "../core/inputs/patched";
import { formatNumber } from "../core/lib/number";
import { hearsFoh } from "../core/model/kinds";
import type { Bus, SendTap, Setup } from "../core/model/setup";
import type { Db } from "../core/model/units";
import { formatPan } from "../core/pan/notation";
import { busName, channelName, formatDeskNumbers, listenerName, numberedName } from "./names";
import type { Column, SheetNames } from "./sheet";
import { TAP_NAMES } from "./taps";
import { capitalised, feedName, formatList } from "./words";

const formatLevel = (level: Db | null): string => (level === null ? "−∞" : formatNumber(level, 1));

/** "Bus 5–6 Drums". */
const busTitle = (bus: Bus): string => numberedName("Bus", bus.numbers, busName(bus));

/** The columns of what is in each bus, one line a send. */
export const CONTENT_COLUMNS: readonly Column<BusContent>[] = [
  { head: "Bus", cell: ({ bus }) => busTitle(bus) },
  { head: "Ch", cell: ({ channel }) => formatDeskNumbers(channel.numbers) },
  { head: "Name", cell: ({ channel }, setup) => channelName(setup, channel.id) },
  { head: "Send, dB", cell: ({ send }) => formatLevel(send.level), value: ({ send }) => send.level },
  { head: "Tap point", cell: ({ send }) => TAP_NAMES[send.tap] },
  {
    head: "Pan",
    cell: ({ bus, send }, { desk }) =>
      !bus.stereo ? "" : send.pan === null ? "follows channel pan" : formatPan(send.pan, desk),
  },
  { head: "On", cell: ({ send }) => (send.on ? "on" : "off") },
];

const formatSend = ({ bus, channel, send }: BusContent, setup: SheetNames): string => {
  const pan = bus.stereo && send.pan !== null ? ` (pan ${formatPan(send.pan, setup.desk)})` : "";
  const level = send.on ? formatLevel(send.level) : "OFF";
  return `${channelName(setup, channel.id)} ${level}${pan}`;
};

const kindOf = (bus: Bus): string => {
  if (!bus.stereo) return "mono";
  return `stereo${bus.swapped ? ", L/R swapped" : ""}${bus.folded ? ", folded to mono" : ""}`;
};

const TAPS: readonly SendTap[] = ["pre-fader", "post-fader"];

/** A bus on paper: what it is, and its sends in dB by tap point. */
export interface BusNote {
  readonly bus: Bus["id"];
  /** "Bus 5–6 Drums, stereo, fader 0.0 dB". */
  readonly title: string;
  /** "Pre-fader: Kick 0.0, Snare −3.0. Post-fader: Bass −6.0." */
  readonly says: string;
}

/** What is in each bus, as it stands under the patch sheet. */
export const describeBuses = (setup: SheetNames): BusNote[] =>
  busContents(setup).map(({ bus, contents }) => {
    const parts = TAPS.flatMap((tap) => {
      const sends = contents.filter(({ send }) => send.tap === tap).map((c) => formatSend(c, setup));
      return sends.length === 0 ? [] : [`${capitalised(TAP_NAMES[tap])}: ${sends.join(", ")}.`];
    });
    return {
      bus: bus.id,
      title: `${busTitle(bus)}, ${kindOf(bus)}, fader ${formatLevel(bus.fader)} dB`,
      says: parts.join(" ") || "Nothing in it.",
    };
  });

/** The channels that a bus passes, on the line check: "Contains: Kick, Snare, Hat."; "" where it passes none. */
export const formatInside = (contents: readonly BusContent[], setup: SheetNames): string => {
  const names = contents
    .filter(({ send }) => send.on && send.level !== null)
    .map(({ channel }) => channelName(setup, channel.id));
  return names.length === 0 ? "" : `Contains: ${names.join(", ")}.`;
};

/** A pair of inputs that a mixer links: "1 and 2 (Drums)". */
const pairsOf = (setup: Setup): string[] =>
  patchedThings(setup).flatMap((thing) => {
    const inputs = [firstOfSide(setup, thing, "left"), firstOfSide(setup, thing, "right")].sort(
      (a, b) => a - b,
    );
    if (!thing.stereo || inputs.includes(-1)) return [];
    return [`${formatList(inputs.map((i) => String(i + 1)))} (${feedName(setup, thing.kind, thing.id)})`];
  });

/** What the musicians set at their own mixers, a sentence each: the pairs that all of them link, then who sets more. */
export const describeMixers = (setup: Setup): string[] => {
  const pairs = pairsOf(setup);
  const own = setup.listeners.flatMap((listener) => {
    if (hearsFoh(listener)) return [];
    const bus = setup.buses.find((b) => b.id === listener.bus);
    const does = [
      ...(listener.flipped && bus ? [`flip L/R of ${busName(bus)}`] : []),
      ...(listener.mono ? ["set the mixer to mono"] : []),
    ];
    return does.length === 0 ? [] : [`${capitalised(listenerName(listener))}: ${formatList(does)}.`];
  });
  const all = `Every mixer: link inputs ${pairs.join(", ")}; pan each pair hard left and hard right.`;
  return pairs.length === 0 ? own : [all, ...own];
};
