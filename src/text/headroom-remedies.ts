import type { LowerSends, Remedy, TrimRemedy } from "../core/headroom/remedy";
import { formatEntry } from "../core/lib/number";
import { LOWEST_SEND, LOWEST_TRIM } from "../core/model/limits";
import type { Bus, Id, Setup } from "../core/model/setup";
import type { Db } from "../core/model/units";
import { formatAmount } from "./headroom";
import { busName, channelName } from "./names";
import { capitalised, formatList } from "./words";

/** One way back to the target headroom, ready to tap. */
export interface RemedyText {
  /** The button: what is set, to what, and how much that is. */
  readonly says: string;
  /** What the plan says then. */
  readonly done: string;
  /** What it costs, as sentences. */
  readonly costs: string;
}

/** A level as the desk's own steps make it. */
const stepped = (value: Db): string => `${formatEntry(value)} dB`;

const whole = (bus: Pick<Bus, "name">, by: Db): string =>
  `Keeps the balance: all of ${busName(bus)} is ${stepped(by)} quieter.`;

/** How far a bus is under its target, over the ways to reach it. */
export const describeShortfall = ({ short }: Pick<Remedy, "short">, missing: number): string => {
  const under = `${formatAmount(short)} under target`;
  return missing > 0
    ? `By the peaks entered, ${under}. Ways to reach it:`
    : `${capitalised(under)}. Ways to reach it:`;
};

/** Lowering the one source that alone is the reason. */
export const describeLone = (setup: Pick<Setup, "channels">, { by, sends }: LowerSends): RemedyText => {
  const [send] = sends;
  const name = channelName(setup, send?.channel ?? "");
  const to = stepped(send?.to ?? LOWEST_SEND);
  return {
    says: `Lower ${name} to ${to} (${stepped(by)} down)`,
    done: `${name} lowered to ${to}`,
    costs: `${name} alone is the reason: the others fit without it. It is ${stepped(by)} quieter against them.`,
  };
};

/** Lowering every send of the bus by as much. */
export const describeAll = (
  setup: Pick<Setup, "channels">,
  bus: Pick<Bus, "name">,
  { by, sends }: LowerSends,
): RemedyText => {
  const name = (id: Id): string => channelName(setup, id);
  const [first] = sends;
  const what =
    sends.length === 1 && first
      ? name(first.channel)
      : sends.length === 2
        ? "both sends"
        : `all ${sends.length} sends`;
  const off = sends.filter(({ to }) => to === null).map(({ channel }) => name(channel));
  return {
    says: `Lower ${what} by ${stepped(by)}`,
    done: `${capitalised(what)} lowered by ${stepped(by)}`,
    costs:
      off.length === 0
        ? whole(bus, by)
        : `All of ${busName(bus)} is ${stepped(by)} quieter. Turns ${formatList(off)} off: ${stepped(LOWEST_SEND)} is the lowest level of a send.`,
  };
};

type Trim<Code> = Extract<TrimRemedy, { readonly code: Code }>;

/** Trimming the whole bus. */
export const describeTrim = (bus: Pick<Bus, "name">, { to, by }: Trim<"enough">): RemedyText => ({
  says: `Trim ${busName(bus)} to ${stepped(to)} (${stepped(by)} down)`,
  done: `${busName(bus)} trimmed to ${stepped(to)}`,
  costs: whole(bus, by),
});

/** Why no trim is enough. */
export const describeNoTrim = (trim: Trim<"out of range" | "bus before trim">): string =>
  trim.code === "out of range"
    ? `No trim reaches it: that would be ${stepped(trim.to)}, and ${stepped(LOWEST_TRIM)} is the lowest.`
    : "No trim reaches it: the bus lies before its trim, so only lower sends help.";
