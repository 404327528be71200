import { busOf } from "./mix/ear-gains";
import { pairOrder } from "./mix/pair-order";
import type { Bus, Listener, Setup } from "./model/setup";
import { busName, channelName, listenerName } from "./names";
import type { Image, ImageRow } from "./stereo/image";
import { describeOff, switchedOff } from "./stereo/switched-off";
import { capitalised, formatCount, formatList } from "./words";

/** What is to be said of what one listener gets, in plain words without a full stop. */
export interface Statement {
  readonly tone: "fine" | "care" | "wrong";
  readonly says: string;
  /** Something to add, as sentences; empty when there is nothing. */
  readonly more: string;
}

const statement = (tone: Statement["tone"], says: string, more = ""): Statement => ({ tone, says, more });

/** What to do about a listener who hears no bus. */
export const CHOOSE_BUS = "Choose which bus is heard.";

/** Names in a sentence, cut where it would grow too long. */
const MOST_NAMES = 5;
const few = (names: readonly string[]): string =>
  names.length <= MOST_NAMES
    ? formatList(names)
    : `${names.slice(0, MOST_NAMES - 1).join(", ")} and ${names.length - MOST_NAMES + 1} more`;

const namesOf = (setup: Setup, rows: readonly ImageRow[]): string =>
  few(rows.map((row) => channelName(setup, row.channel)));

/** What the listener hears, as a thing: "FOH", "Drums". */
const feedCalled = (image: Image, bus: Bus | undefined): string =>
  image.hears === "foh" ? "FOH" : busName(bus);

const sidesLost = (setup: Setup, rows: readonly ImageRow[]): string => {
  const lost = rows.filter((r) => r.sidesLost);
  if (lost.length === 0) return "";
  const [their, have] = lost.length === 1 ? ["its", "has"] : ["their", "have"];
  return `${namesOf(setup, lost)} must keep ${their} sides and ${have} lost them.`;
};

const unpatched = (setup: Setup, bus: Bus | undefined): string =>
  bus && pairOrder(setup.monitor, bus) === "unassigned"
    ? `${busName(bus)} is in no input yet: this is what will be heard once it is patched.`
    : "";

/** Both ears get the same, and why; null when they do not. */
const oneForBoth = (listener: Listener, bus: Bus | undefined): string | null => {
  if (listener.mono) return `Both sides in one for ${listenerName(listener)}: there are no sides`;
  if (bus && !bus.stereo) return `${busName(bus)} is mono: no sides for ${listenerName(listener)}`;
  return bus?.folded ? `${busName(bus)} is folded to mono: no sides for ${listenerName(listener)}` : null;
};

const one = (setup: Setup, who: string, row: ImageRow): Statement => {
  const name = channelName(setup, row.channel);
  const places = `It stands ${said(row.stands)} and is heard ${said(row.heard)}.`;
  if (row.placement === "right")
    return statement("fine", `Only ${name} can be placed for ${who}: correct`, places);
  if (row.placement === "wrong")
    return statement("wrong", `Only ${name} can be placed for ${who}: on the wrong side`, places);
  return statement("care", `Only ${name} can be placed for ${who}: it has no clear side`, places);
};

const said = (place: ImageRow["stands"]): string =>
  place === "middle" ? "in the middle" : (place ?? "nowhere");

/** Of channels that stand somewhere: how many are where they belong. */
const sidesSaid = (setup: Setup, listener: Listener, rows: readonly ImageRow[]): Statement => {
  const who = listenerName(listener);
  const wrong = rows.filter((r) => r.placement === "wrong");
  const flat = rows.filter((r) => r.placement === "centred");
  const [only] = rows;
  if (only && rows.length === 1) return one(setup, who, only);
  if (wrong.length > 0) {
    const reversed = wrong.length * 2 > rows.filter((r) => r.stands !== "middle").length;
    const says = `${reversed ? "Reversed" : "Mixed up"} for ${who}: ${wrong.length} of ${rows.length} on the wrong side`;
    return statement("wrong", says, `Wrong: ${namesOf(setup, wrong)}.`);
  }
  if (rows.every((r) => r.heard === "middle")) {
    if (flat.length === 0) return statement("fine", `Correct for ${who}: everything belongs in the middle`);
    return statement(
      "care",
      `All in the middle for ${who}: no sides to hear`,
      `${namesOf(setup, flat)} would stand at a side: pan ${flat.length === 1 ? "it" : "them"}.`,
    );
  }
  if (flat.length === 0) return statement("fine", `Correct for ${who}: every side agrees`);
  const says = `Correct for ${who}, but ${flat.length} of ${rows.length} ${flat.length === 1 ? "has" : "have"} no clear side`;
  return statement(
    "care",
    says,
    `${namesOf(setup, flat)}: heard in the middle, or off it without standing there.`,
  );
};

const withMore = (it: Statement, ...more: readonly string[]): Statement => ({
  ...it,
  more: [it.more, ...more].filter(Boolean).join(" "),
});

/** One line on what a listener gets, true and useful whatever the case. */
export const describeImage = (setup: Setup, listener: Listener, image: Image): Statement => {
  const who = listenerName(listener);
  const bus = busOf(setup, listener);
  if (image.hears === "nothing") return statement("care", `${capitalised(who)} hears no bus`, CHOOSE_BUS);
  const feed = feedCalled(image, bus);
  if (image.rows.length === 0) {
    const more = "Send a channel into it that is not muted.";
    return image.hears === "foh"
      ? statement("care", "Nothing is heard at FOH", "Every channel is muted, or there is none.")
      : statement("care", `Nothing sounds in ${feed}`, more);
  }
  const heardBus = image.hears === "bus" ? bus : undefined;
  // Before a side is on again, nothing else is worth a word.
  const off = heardBus && switchedOff(setup.monitor, heardBus);
  if (off) return statement("care", describeOff(off, who, image.rows), off.remedy);
  const lost = sidesLost(setup, image.rows);
  const later = unpatched(setup, heardBus);
  if (image.sideOn) {
    const says = `${capitalised(who)} stands side-on to the kit: left and right mean nothing from there`;
    return withMore(
      statement("care", says, "No patch and no pan is right or wrong for this place."),
      lost,
      later,
    );
  }
  const both = oneForBoth(listener, heardBus);
  if (both !== null) return withMore(statement("care", both), lost, later);
  const placed = image.rows.filter((r) => r.placement !== "unplaced");
  if (placed.length === 0) {
    const how = "Say at which piece a channel stands, and its side can be told.";
    return withMore(statement("care", `Nothing in ${feed} has a place at the kit`, how), lost, later);
  }
  const unplaced = image.rows.length - placed.length;
  return withMore(
    sidesSaid(setup, listener, placed),
    lost,
    unplaced > 0 && image.hears === "bus"
      ? `${formatCount(unplaced, "channel")} without a place at the kit.`
      : "",
    later,
  );
};
