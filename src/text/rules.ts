import type { ChannelRule, Listener, OwnWish, ShareWish, StereoWish } from "../core/model/setup";
import { nameOr } from "./names";
import { TAP_NAMES } from "./taps";
import { formatList } from "./words";

/** How much a channel wants an input of its own. */
const OWN_WISHES: { readonly [wish in OwnWish]: string } = {
  must: "must",
  prefer: "prefer",
  "if-left": "if inputs are left",
  "no-matter": "no matter",
  no: "no",
};

/** How much a channel's stereo is worth. */
const STEREO_WISHES: { readonly [wish in StereoWish]: string } = {
  must: "must",
  prefer: "prefer",
  no: "no",
};

/** Whom a channel may share an input with. */
const SHARE_WISHES: { readonly [wish in ShareWish]: string } = {
  nobody: "nobody",
  family: "its own family",
  anyone: "its family, else fold-back",
};

/** Each rule of a channel, before its value. */
const RULE_NAMES: { readonly [key in keyof ChannelRule]-?: string } = {
  own: "input of its own",
  stereo: "stereo",
  shares: "may share with",
  reach: "must reach",
  mayLeaveOut: "may be left out",
  tap: "direct out tap point",
  send: "send to a bus",
};

type Listeners = readonly Pick<Listener, "id" | "name">[];

const reachText = (who: NonNullable<ChannelRule["reach"]>, listeners: Listeners): string => {
  if (who === "all") return "everybody";
  const names = who.map((id) =>
    nameOr(
      listeners.find((l) => l.id === id),
      "listener",
    ),
  );
  return formatList(names) || "nobody in particular";
};

/** What was changed of a channel's rule, in words. */
export const formatRule = (rule: ChannelRule | undefined, listeners: Listeners): string => {
  const { own, stereo, shares, reach, mayLeaveOut, tap, send } = rule ?? {};
  const said: { readonly [key in keyof ChannelRule]-?: string | undefined } = {
    own: own && OWN_WISHES[own],
    stereo: stereo && STEREO_WISHES[stereo],
    shares: shares && SHARE_WISHES[shares],
    reach: reach && reachText(reach, listeners),
    mayLeaveOut: mayLeaveOut === undefined ? undefined : mayLeaveOut ? "yes" : "no",
    tap: tap && TAP_NAMES[tap],
    send: send && TAP_NAMES[send],
  };
  const parts = (Object.keys(said) as (keyof ChannelRule)[]).flatMap((key) =>
    said[key] === undefined ? [] : [`${RULE_NAMES[key]} ${said[key]}`],
  );
  return parts.join(", ") || "as its kind";
};
