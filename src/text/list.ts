import type { ListRow } from "../core/inputs/list";
import type { FieldChange, ListChange } from "../core/inputs/list-changes";
import type { ListFeed } from "../core/inputs/list-feeds";
import type { ListSend } from "../core/inputs/list-sends";
import { isolated } from "../core/lib/direction";
import { asTyped, formatEntry } from "../core/lib/number";
import type { ChannelKind } from "../core/model/setup";
import { formatPan } from "../core/pan/notation";
import type { PanNotation } from "../core/pan/notation-styles";
import { TAP_NAMES } from "./taps";
import { formatCount, formatList } from "./words";

/** Kinds as an input list has them. */
export const KIND_WORDS: { readonly [kind in ChannelKind]: string } = {
  drum: "drum",
  percussion: "percussion",
  bass: "bass",
  guitar: "guitar",
  keys: "keys",
  horn: "horn",
  strings: "strings",
  "lead-vocal": "lead vox",
  vocal: "vocal",
  playback: "playback",
  click: "click",
  speech: "speech",
  talkback: "talkback",
  audience: "audience mic",
  video: "video",
  effects: "effects return",
  other: "other",
};
const SIDES = { left: " L", right: " R", both: "" } as const;

const feedText = ({ input, side, tap, on, trim }: ListFeed): string =>
  [
    `In ${input}${SIDES[side]} ${TAP_NAMES[tap]}`,
    on ? "" : "off",
    trim === 0 ? "" : `${formatEntry(trim)} dB`,
  ]
    .filter((part) => part !== "")
    .join(", ");

const wayText = ({ bus, tap, level, pan, on }: ListSend, notation: PanNotation): string =>
  [
    `${isolated(bus.name) || "Unnamed bus"} ${TAP_NAMES[tap]}`,
    `${level === null ? "−∞" : formatEntry(level)} dB`,
    pan === null ? "" : `pan ${formatPan(pan, notation)}`,
    on ? "" : "off",
  ]
    .filter((part) => part !== "")
    .join(", ");

const levelText = (level: number | null): string =>
  level === null ? "not entered" : `${formatEntry(level)} dBFS`;

/** How each field of a channel is called and how its value reads: one that is left out does not compile. */
const TEXTS: {
  readonly [field in keyof ListRow]: {
    readonly title: string;
    readonly text: (value: ListRow[field], notation: PanNotation) => string;
  };
} = {
  numbers: { title: "Ch", text: (numbers) => numbers.join(" & ") || "not entered" },
  name: { title: "Name", text: asTyped },
  kind: { title: "Kind", text: (kind) => KIND_WORDS[kind] },
  piece: { title: "Kit piece", text: (piece) => (piece === null ? "none" : asTyped(piece)) },
  lines: { title: "Mono or stereo", text: (channels) => (channels === 2 ? "stereo" : "mono") },
  pan: { title: "Channel pan", text: formatPan },
  muted: { title: "Mute", text: (muted) => (muted ? "on" : "off") },
  inverted: { title: "Polarity", text: (inverted) => (inverted ? "inverted" : "normal") },
  gatedRms: { title: "Gated RMS", text: levelText },
  peak: { title: "Peak", text: levelText },
  keepSides: { title: "Keep L/R", text: (keeps) => (keeps ? "yes" : "no") },
  feeds: {
    title: "Monitor input",
    text: (feeds) => (feeds.length === 0 ? "unassigned" : feeds.map(feedText).join("; ")),
  },
  sends: {
    title: "Sends",
    text: (sends, notation) =>
      sends.length === 0 ? "none" : sends.map((send) => wayText(send, notation)).join("; "),
  },
  extra: {
    title: "Extra columns",
    text: (extra) =>
      extra.map(({ head, value }) => `${asTyped(head)}: ${asTyped(value)}`).join("; ") || "none",
  },
};

/** One change of a channel: "Gated RMS: −22 dBFS → −20 dBFS". */
export const describeFieldChange = (change: FieldChange, notation: PanNotation): string => {
  // The compiler does not see that field and value belong together, whichever of them it is.
  const { title, text } = TEXTS[change.field] as (typeof TEXTS)["name"];
  const [from, to] = [change.from, change.to].map((value) => text(value as string, notation));
  return `${title}: ${from} → ${to}${from === to ? " (less than a step)" : ""}`;
};

/** A new channel as it was understood: "new: vocal, mono, pan L30, In 3 pre-fader". */
export const describeNew = (row: ListRow, notation: PanNotation): string => {
  const parts = [
    row.numbers.length === 0 ? "" : `Ch ${TEXTS.numbers.text(row.numbers, notation)}`,
    TEXTS.kind.text(row.kind, notation),
    TEXTS.lines.text(row.lines, notation),
    row.piece === null ? "" : `at ${asTyped(row.piece)}`,
    row.pan === 0 ? "" : `pan ${formatPan(row.pan, notation)}`,
    row.feeds.length === 0 ? "" : TEXTS.feeds.text(row.feeds, notation),
    row.sends.length === 0 ? "" : TEXTS.sends.text(row.sends, notation),
    row.extra.length === 0 ? "" : TEXTS.extra.text(row.extra, notation),
  ];
  return `new: ${parts.filter((part) => part !== "").join(", ")}`;
};

/** How much a list would change: "2 new channels, 3 changed, 1 removed; 13 stay as they are." */
export const describeCounts = (changes: readonly ListChange[]): string => {
  const count = (is: (c: ListChange) => boolean): number => changes.filter(is).length;
  const fresh = count((c) => c.state === "new");
  const changed = count((c) => c.state === "known" && c.changes.length > 0);
  const gone = count((c) => c.state === "gone");
  const same = changes.length - fresh - changed - gone;
  const parts = [
    fresh > 0 ? formatCount(fresh, "new channel") : "",
    changed > 0 ? `${changed} changed` : "",
    gone > 0 ? `${gone} removed` : "",
  ].filter((part) => part !== "");
  const stay = same === 0 ? "" : `${same} ${same === 1 ? "stays as it is" : "stay as they are"}`;
  if (parts.length === 0) return stay === "" ? "Nothing changes." : `Nothing changes: ${stay}.`;
  return stay === "" ? `${formatList(parts)}.` : `${formatList(parts)}; ${stay}.`;
};
