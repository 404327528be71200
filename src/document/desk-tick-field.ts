import { CONTROL_OWNERS, controlKey } from "../core/inputs/controls";
import type { Setup } from "../core/model/setup";
import { kept } from "./amend";
import { LIMITS } from "./limits";
import { isFields, type Reader, Refusal } from "./reader";
import type { DeskTick, HandedOver, TickEntry, TickedCode } from "./schema";

const isText = (value: unknown, most: number): value is string =>
  typeof value === "string" && value.length <= most;

/** Longest value of a control as JSON text: a send, two numbers, a feed with a long id. */
const MOST_VALUE = 200;

type IsA = (value: unknown) => boolean;

const isNumber: IsA = (value) => typeof value === "number";
const isYes: IsA = (value) => typeof value === "boolean";
const isWord =
  (...words: readonly string[]): IsA =>
  (value) =>
    words.some((word) => word === value);
const isId: IsA = (value) => isText(value, LIMITS.id);
const orNull =
  (is: IsA): IsA =>
  (value) =>
    value === null || is(value);
const isList =
  (is: IsA, least: number): IsA =>
  (value) =>
    Array.isArray(value) && value.length >= least && value.length <= 2 && value.every(is);
const isAll =
  (shape: { readonly [key: string]: IsA }): IsA =>
  (value) =>
    isFields(value) && Object.entries(shape).every(([key, is]) => is(value[key]));

const isFeed: IsA = (value) =>
  isAll({ kind: isWord("bus"), bus: isId, side: isWord("left", "right") })(value) ||
  isAll({ kind: isWord("channel"), channel: isId, side: isWord("left", "right", "both") })(value);

/** What the value of each kind of tick looks like. */
const SHAPES: { readonly [code in TickedCode]: IsA } = {
  "line check": isFeed,
  "channel number": isList(isNumber, 0),
  "channel stereo": isYes,
  polarity: isYes,
  mute: isYes,
  pan: isNumber,
  fader: orNull(isNumber),
  "direct out": isAll({
    tap: isWord("pre-hpf", "pre-eq", "pre-fader", "post-fader"),
    on: isYes,
    trim: isNumber,
  }),
  send: isAll({
    on: isYes,
    level: orNull(isNumber),
    tap: isWord("pre-fader", "post-fader"),
    pan: orNull(isNumber),
  }),
  "bus number": isList(isNumber, 0),
  "bus stereo": isYes,
  "bus mono": isYes,
  "bus fader": orNull(isNumber),
  "bus trim": isNumber,
  "side trim": isList(isNumber, 2),
  "side polarity": isList(isYes, 2),
  pad: isNumber,
  "input feed": orNull(isAll({ feed: isFeed, port: orNull(isNumber) })),
  "input on": isYes,
  "input trim": isNumber,
  hears: orNull(isId),
  flip: isYes,
  mono: isYes,
};

/** The value that was ticked; undefined where the text is none of such a control. */
export const tickedValue = ({ control, value }: Pick<TickEntry, "control" | "value">): unknown => {
  try {
    const read: unknown = JSON.parse(value);
    return SHAPES[control](read) ? read : undefined;
  } catch {
    return undefined;
  }
};

/** A time as a tick has it: of this century, so that the one after it is another. */
/** Whether a value is a time as `Stamp.at` has it. */
export const isTime = (value: unknown): value is string =>
  typeof value === "string" &&
  /^20\d\d(-\d\d){2}T\d\d(:\d\d){2}\.\d{3}Z$/.test(value) &&
  Date.parse(value) > 0;

const isEntry = (value: unknown): value is TickEntry => {
  if (!isFields(value)) return false;
  const { control, id, bus, at, by } = value;
  if (typeof control !== "string" || !Object.hasOwn(SHAPES, control)) return false;
  if (!isText(value.value, MOST_VALUE) || !isId(id) || !isId(bus)) return false;
  const isStamped = isTime(at) && isText(by, LIMITS.name);
  return isStamped && tickedValue({ control: control as TickedCode, value: value.value }) !== undefined;
};

const isTick = (value: unknown): value is DeskTick => isEntry(value) && value.control !== "line check";

/** A list of ticks, each by its key once. One that is none is left out whole: half a tick would say that something is as planned. */
const ticksBy =
  <T extends DeskTick | TickEntry>(
    isA: (value: unknown) => value is T,
    keyOf: (tick: T) => string,
    only: (tick: T) => T,
  ): Reader<readonly T[] | undefined> =>
  (value, at, say) => {
    if (value === undefined) return undefined;
    const all = Array.isArray(value) ? value : [];
    if (!Array.isArray(value)) say({ code: "no list of ticks", at });
    if (all.length > LIMITS.deskTicks)
      throw new Refusal({ code: "too many", at, count: all.length, limit: LIMITS.deskTicks });
    const good = all.filter(isA).map(only);
    if (good.length < all.length)
      say({ code: "bad ticks", at, bad: all.length - good.length, all: all.length });
    const once = new Map(good.map((tick) => [keyOf(tick), tick]));
    return once.size === 0 ? undefined : [...once.values()];
  };

/** Ticks of the desk list. */
export const readDeskTicks = ticksBy(isTick, controlKey, ({ control, id, bus, value, at, by }) => ({
  control,
  id,
  bus,
  value,
  at,
  by,
}));

/** Who ticked what when. */
export const readTickLog = ticksBy(
  (value): value is TickEntry => isEntry(value) && (value.said === null || isYes(value.said)),
  (entry) => JSON.stringify(entry),
  ({ control, id, bus, value, said, at, by }) => ({ control, id, bus, value, said, at, by }),
);

/** Where a helper’s copy comes from; one without a good place or time is nobody’s copy. */
export const readHanded: Reader<HandedOver | undefined> = (value) =>
  isFields(value) && isId(value.of) && isTime(value.at)
    ? { of: value.of as string, at: value.at }
    : undefined;

/** Ticks of what is still there; the very same ones where all are. Another thing may get the id of one that is gone. */
export const ofWhatIsThere = <T extends Pick<TickEntry, "control" | "id" | "bus">>(
  ticks: readonly T[],
  setup: Setup,
): readonly T[] => {
  const known = {
    channel: new Set(setup.channels.map((c) => c.id)),
    bus: new Set(setup.buses.map((b) => b.id)),
    mixer: new Set(setup.listeners.map((l) => l.id)),
  };
  return kept(ticks, ({ control, id, bus }) => {
    const owner = control === "line check" ? "input" : CONTROL_OWNERS[control];
    const isAtMixer = control === "line check" && known.mixer.has(bus);
    if (owner === "input" || owner === "monitor system")
      return /^(0|[1-9]\d{0,2})$/.test(id) && (bus === "" || isAtMixer);
    return known[owner].has(id) && (control === "send" ? known.bus.has(bus) : bus === "");
  });
};
