import { groupName } from "../core/inputs/apply";
import type { WayToFree } from "../core/inputs/free";
import type { Loss } from "../core/inputs/losses";
import type { FreeReason, Move } from "../core/inputs/move";
import { usageOf } from "../core/inputs/usage";
import { quoted } from "../core/lib/direction";
import { formatNumber } from "../core/lib/number";
import type { Id, Setup } from "../core/model/setup";
import type { Db } from "../core/model/units";
import { capitalised, feedName, formatCount, formatInputs, formatList } from "./words";

const formatGain = (level: Db): string => `${formatNumber(level, 2)} dB`;

const describeMove = (setup: Setup, move: Move): string => {
  const channel = (id: Id): string => feedName(setup, "channel", id);
  switch (move.move) {
    case "fold":
      return `fold ${feedName(setup, move.of, move.id)} to mono`;
    case "into":
      return `move ${channel(move.channel)} to ${feedName(setup, "bus", move.bus)}`;
    case "together":
      return `mix ${formatList(move.channels.map(channel))} to a new mono bus, ${quoted(groupName(setup, move.channels))}`;
    case "free":
      return `free ${formatInputs(move.inputs)} (${feedName(setup, move.of, move.id)})`;
  }
};

/** What to do, as a sentence. */
export const describeWay = (setup: Setup, { moves }: Pick<WayToFree, "moves">): string =>
  moves.length === 0
    ? `Move ${formatInputs(usageOf(setup).over)} to free inputs.`
    : `${capitalised(formatList(moves.map((move) => describeMove(setup, move))))}.`;

const FREED: { readonly [why in FreeReason]: (name: string) => string } = {
  copy: (name) => `Nothing is lost: ${name} still has another input.`,
  muted: (name) => `${name} is muted now; it has to be patched again when it is wanted.`,
  off: (name) => `${name} is off there now; if it was only forgotten, it stays missing.`,
  twice: (name) => `${name} is still heard in the bus, but nobody can turn it up alone.`,
};

const describeBalance = (setup: Setup, { fold, up, gone }: Extract<Loss, { loss: "balance" }>): string => {
  const channel = (id: Id): string => feedName(setup, "channel", id);
  const parts = [
    ...(up ? [`${channel(up.channel)} comes up by ${formatGain(up.by)} against ${channel(up.against)}`] : []),
    ...(gone.length > 0
      ? [`${formatList(gone.map(channel))} ${gone.length === 1 ? "cancels" : "cancel"} out`]
      : []),
  ];
  const said = parts.join(", and ");
  return fold === "sends" ? `${said}.` : `If the desk folds L + R instead, ${said}.`;
};

/** One thing that a way loses, as a sentence. */
export const describeLoss = (setup: Setup, loss: Loss): string => {
  const channel = (id: Id): string => feedName(setup, "channel", id);
  const bus = (id: Id): string => feedName(setup, "bus", id);
  switch (loss.loss) {
    case "freed":
      return FREED[loss.why](feedName(setup, loss.of, loss.id));
    case "apart":
      return `${formatList(loss.channels.map(channel))} can no longer be mixed apart${loss.from === null ? "" : ` from ${bus(loss.from)}`}.`;
    case "bus to mono": {
      const { aside } = loss;
      if (aside.length === 0) return `${bus(loss.bus)} goes to mono; everything in it is centred anyway.`;
      return `${bus(loss.bus)} goes to mono: ${formatCount(aside.length, "image")} ${aside.length === 1 ? "collapses" : "collapse"} to the centre (${formatList(aside.map(channel))}).`;
    }
    case "balance":
      return describeBalance(setup, loss);
    case "channel to mono":
      return `${channel(loss.channel)} goes to mono.`;
    case "centre up":
      return `${channel(loss.channel)} goes to mono: its sides move to the centre, and what is in its centre comes up by ${formatGain(loss.by)} against them.`;
    case "keeps L/R":
      return `${channel(loss.channel)} is set to keep L/R.`;
    case "likely peak":
      return `Likely peak of ${bus(loss.bus)} goes from ${formatNumber(loss.from, 1)} to ${formatNumber(loss.to, 1)} dBFS.`;
    case "headroom":
      return loss.known
        ? `The new bus needs ${formatGain(loss.by)} more headroom than its loudest channel.`
        : `Not all peaks are entered; if they were alike, the new bus would need ${formatGain(loss.by)} more headroom than its loudest channel.`;
  }
};

/** What a way loses, as sentences. */
export const describeLosses = (setup: Setup, { moves, loses }: WayToFree): string[] =>
  moves.length === 0 ? ["Nothing is lost."] : loses.map((loss) => describeLoss(setup, loss));
