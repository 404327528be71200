import type { Change, MusicianView, PlanLoss } from "../core/allocate/explain";
import type { LossCode } from "../core/allocate/losses";
import type { AllocationProblem, BusOf } from "../core/allocate/model";
import type { AllocationPlan, PlanFeed } from "../core/allocate/plans";
import type { FamilyId } from "../core/allocate/rules";
import type { PlanStyle } from "../core/allocate/styles";
import type { Id } from "../core/model/setup";
import { capitalised, formatCount, formatList } from "./words";

/** The bus of a family. */
const FAMILY_BUSES: { readonly [family in FamilyId]: string } = {
  drums: "Drum bus",
  bass: "Bass bus",
  guitars: "Guitar bus",
  keys: "Keys bus",
  horns: "Horn bus",
  strings: "String bus",
  others: "Other bus",
  vocals: "Vocal bus",
  playback: "Playback bus",
  click: "Click bus",
  "fold-back": "Fold-back",
};

/** Name of a bus: of what it holds together. */
export const allocatedBusName = ({ level, family, section, instrument }: BusOf): string => {
  if (level === "instrument" && instrument) return `${capitalised(instrument)} bus`;
  if (level === "section" && section) return `${capitalised(section)} bus`;
  return FAMILY_BUSES[family];
};

/** What a plan is called, and why it is one. */
export const PLAN_STYLES: { readonly [style in PlanStyle]: { readonly name: string; readonly why: string } } =
  {
    best: { name: "Best", why: "Loses the least of what matters most." },
    "as-now": { name: "Own inputs stay", why: "Nobody loses an input they have to themselves now." },
    stereo: { name: "Stereo first", why: "What is stereo stays stereo; channels of a family share instead." },
    spare: { name: "Room for guests", why: "One input or pair for each family; the rest stays free." },
    apart: {
      name: "Most own inputs",
      why: "As many channels as possible have an input to themselves; stereo gives way.",
    },
    fewest: { name: "Fewest inputs", why: "Families share and stereo goes to mono; the rest stays free." },
  };

/** "In 3" or "In 3/4". */
export const inputsName = (inputs: readonly number[]): string => `In ${inputs.join("/")}`;

/** More names than this are counted. */
const IN_SIGHT = 4;

/** A list for a sentence: a few names, and how many more. */
export const few = (names: readonly string[]): string =>
  names.length <= IN_SIGHT + 1
    ? formatList(names)
    : `${names.slice(0, IN_SIGHT).join(", ")} and ${names.length - IN_SIGHT} more`;

/** Names of the channels and musicians of a problem. */
export const namesIn =
  ({ channels, musicians }: AllocationProblem) =>
  (id: Id): string =>
    [...channels, ...musicians].find((thing) => thing.id === id)?.name || "Unnamed";

type Same = { readonly code: LossCode; readonly feed: PlanFeed | null; readonly losses: readonly PlanLoss[] };

/** Losses of one kind in one feed make one sentence. */
const together = (losses: readonly PlanLoss[], feeds: readonly PlanFeed[]): Same[] => {
  const parts: { code: LossCode; feed: PlanFeed | null; losses: PlanLoss[] }[] = [];
  for (const loss of losses) {
    const feed = feeds.find((f) => f.channels.includes(loss.channel)) ?? null;
    const known = parts.find((p) => p.code === loss.code && p.feed === feed);
    if (known && loss.code !== "unheard") known.losses.push(loss);
    else parts.push({ code: loss.code, feed, losses: [loss] });
  }
  return parts;
};

interface Said {
  readonly names: string;
  readonly many: boolean;
  /** "In 3", or nothing. */
  readonly at: string;
  /** What else is in the feed. */
  readonly others: string;
  readonly musicians: string;
  readonly isMany: boolean;
  readonly isSwapped: boolean;
}

/** Codes that say that a channel shares; each channel is told of the worst of them only. */
const SHARING: readonly LossCode[] = [
  "must-own-shared",
  "own-voice-shared",
  "families-share",
  "sections-share",
  "own-shared",
  "spare-own-shared",
];

const toldOnce = (losses: readonly PlanLoss[]): PlanLoss[] =>
  losses.filter(
    (loss, i) =>
      !SHARING.includes(loss.code) ||
      !losses.slice(0, i).some((l) => l.channel === loss.channel && SHARING.includes(l.code)),
  );

const shares = ({ names, many, at, others }: Said): string =>
  others ? `${names} ${many ? "share" : "shares"} ${at} with ${others}` : `${names} share ${at}`;

const LOSSES: { readonly [code in LossCode]?: (said: Said) => string } = {
  unheard: ({ names, musicians, isMany }) =>
    musicians ? `${musicians} ${isMany ? "do" : "does"} not hear ${names}` : `Nobody hears ${names}`,
  "must-own-shared": (said) =>
    `${shares(said)}, but must have ${said.many ? "inputs of their own" : "an input of its own"}`,
  "sides-lost": ({ names, many, isSwapped }) =>
    `${names} must keep L/R, but ${many ? "are" : "is"} ${isSwapped ? "in a swapped bus" : "in mono"}`,
  "own-voice-shared": (said) =>
    `${shares(said)}: ${said.many ? "the singers" : "the singer"} cannot turn up their own voice alone`,
  "left-out": ({ names, many }) => `${names} ${many ? "are" : "is"} left out`,
  "families-share": (said) => `${shares(said)}, outside ${said.many ? "their" : "its"} family`,
  "sections-share": (said) => `${shares(said)}: another section of the family`,
  "image-folded": ({ names, at, many }) => `${names} ${many ? "are" : "is"} in mono on ${at}`,
  "own-shared": (said) =>
    `${shares(said)}: nobody can mix ${said.many || !said.others ? "them" : "it"} separately`,
  "stereo-folded": ({ names, at, many }) => `${names} ${many ? "are" : "is"} in mono on ${at}`,
  "spare-own-shared": ({ names, many, at }) => `${names} ${many ? "share" : "shares"} ${at}`,
  "own-input-lost": ({ names, many }) =>
    `${names} ${many ? "lose the inputs they have to themselves" : "loses the input it has to itself"} now`,
};

/** What a plan loses, a sentence each, worst first. */
export const describePlanLosses = (
  problem: AllocationProblem,
  { losses, feeds }: Pick<AllocationPlan, "losses" | "feeds">,
): string[] => {
  const named = namesIn(problem);
  return together(toldOnce(losses), feeds).flatMap(({ code, feed, losses: same }) => {
    const ids = same.map((l) => l.channel);
    const musicians = same[0]?.musicians ?? [];
    const said = LOSSES[code]?.({
      names: few(ids.map(named)),
      many: ids.length > 1,
      at: feed ? inputsName(feed.inputs) : "no input",
      others: few((feed?.channels ?? []).filter((id) => !ids.includes(id)).map(named)),
      musicians: few(musicians.map(named)),
      isMany: musicians.length > 1,
      isSwapped: feed?.isSwapped ?? false,
    });
    return said ? [`${said}.`] : [];
  });
};

/** What a musician finds elsewhere than now. */
export const describePlanChange = (
  problem: AllocationProblem,
  { code, channel, from, to }: Change,
): string => {
  const name = namesIn(problem)(channel);
  if (code === "new") return `${name}: new on ${inputsName(to)}`;
  if (code === "gone") return `${name}: no longer on ${inputsName(from)}`;
  return `${name}: ${inputsName(from)} → ${inputsName(to)}`;
};

/** What a musician can and cannot mix apart. */
export const describeMusician = (problem: AllocationProblem, view: MusicianView): string => {
  const named = namesIn(problem);
  const { apart, together: knobs, missing } = view;
  const shared = knobs.filter((k) => k.wants.length + k.others > 1);
  return [
    `${named(view.musician)} can mix ${formatCount(apart.length, "channel")} separately.`,
    ...shared.map((k) => {
      const others = k.others > 0 ? ` with ${formatCount(k.others, "other")}` : "";
      return `On one knob, ${inputsName(k.inputs)}: ${few(k.wants.map(named))}${others}.`;
    }),
    ...(missing.length > 0 ? [`Does not hear ${few(missing.map(named))}.`] : []),
  ].join(" ");
};
