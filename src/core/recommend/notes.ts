import { inputTrims } from "../mix/pair-order";
import type { Id } from "../model/setup";
import type { Db } from "../model/units";
import type { ListenerChoice, Mirrored, Note, RankedPlan, Situation, Voice } from "./model";
import { entriesFor, type Hearing, type PanState, viewpoints } from "./tally";

/** How a plan turns things round: by the sides of a bus, or by pans. */
interface Turns {
  /** At the patch of the bus. */
  readonly swap: boolean;
  /** There, or in a copy in swapped order. */
  readonly bus: boolean;
  readonly pans: boolean;
}

/** Below this a rounding is not worth a word, dB. */
const SLIGHT: Db = 0.005;

const idsOf = (voices: readonly Voice[]): Id[] => voices.map((v) => v.channel.id);

const hearingOf = ({ change }: RankedPlan, choice: ListenerChoice, flipped: boolean): Hearing => {
  if (choice.does === "own bus") return { order: "as is", flipped: flipped !== choice.swap };
  const order = change.fold ? "folded" : change.swap ? "swapped" : "as is";
  return { order, flipped: flipped !== (choice.does === "flip") };
};

/** What a plan does to the pan of a voice for somebody by their choice. */
const panFor = (
  { voices }: Situation,
  { change }: RankedPlan,
  choice: ListenerChoice,
  at: number,
): PanState => {
  const set = change.mirrored.includes(at);
  const channel = change.panning === "foh" && set;
  if (choice.does === "own bus") return { inBus: choice.mirrored.includes(at), channel };
  return { inBus: set && (change.panning === "bus" || voices[at]?.send.pan === null), channel };
};

/** What each member hears by a plan, and how. */
export const hearingsOf = (
  situation: Situation,
  plan: RankedPlan,
): { readonly hearing: Hearing; readonly pan: (at: number) => PanState }[] =>
  situation.members.map((member, at) => {
    const choice = plan.choices[at] as ListenerChoice;
    return {
      hearing: hearingOf(plan, choice, member.flipped),
      pan: (voice) => panFor(situation, plan, choice, voice),
    };
  });

const lostNotes = (situation: Situation, plan: RankedPlan): Note[] => {
  const { voices, members } = situation;
  const view = viewpoints(situation);
  const keepers = voices.flatMap(({ channel }, at) => (channel.keepSides ? [at] : []));
  const then = hearingsOf(situation, plan);
  const lost = members.map((member, m) => {
    const from = view(member, false);
    const { hearing, pan } = then[m] as (typeof then)[number];
    const later = entriesFor(situation, from, hearing);
    const now = entriesFor(situation, from, { order: "as is", flipped: member.flipped });
    return keepers.filter((at) => later(at, pan(at)).lost && !now(at, { inBus: false, channel: false }).lost);
  });
  const which = keepers.filter((at) => lost.some((its) => its.includes(at)));
  if (which.length === 0) return [];
  return [
    {
      code: "sides lost",
      channels: idsOf(which.map((at) => voices[at] as Voice)),
      listeners: members.flatMap(({ id }, at) => (lost[at]?.length ? [id] : [])),
    },
  ];
};

/** What unequal trims of L and R, and of their inputs, keep from being an exact mirror. */
const trimNotes = ({ bus, setup }: Situation, residual: Db, turns: Turns): Note[] => {
  const notes: Note[] = [];
  const sides = Math.abs(bus.sideTrim[0] - bus.sideTrim[1]);
  const [left, right] = inputTrims(setup.monitor, bus);
  const inputs = Math.abs(left - right);
  if (sides > 0)
    for (const by of ["bus", "pans"] as const)
      if (turns[by]) notes.push({ code: "side trims", by, apart: sides, residual });
  if (inputs > 0 && (turns.swap || turns.pans)) notes.push({ code: "input trims", apart: inputs, residual });
  return notes;
};

/** What else is not alike in L and R. */
const sideNotes = ({ bus }: Situation, turns: Turns): Note[] => {
  const has = { polarity: bus.sideInverted[0] !== bus.sideInverted[1], "uneven sides": bus.unevenSides };
  return (["polarity", "uneven sides"] as const).flatMap((code) =>
    (["bus", "pans"] as const).filter((by) => has[code] && turns[by]).map((by) => ({ code, by })),
  );
};

/** What mirrored pans do not do exactly: roundings, and stereo channels. */
const panNotes = (inBus: readonly Voice[], atChannel: readonly Voice[]): Note[] => {
  const errors: (readonly [Voice, Db])[] = [
    ...inBus.map((v) => [v, v.mirrored.error] as const),
    ...atChannel.map((v) => [v, v.channelMirrored.error] as const),
  ];
  const [channel, error] = errors.reduce<readonly [Voice | null, Db]>(
    (a, b) => (a[1] >= b[1] ? a : b),
    [null, SLIGHT],
  );
  const stereo = [...new Set([...inBus, ...atChannel])].filter((v) => v.channel.lines === 2);
  return [
    ...(channel ? [{ code: "rounding", channel: channel.channel.id, error } as const] : []),
    ...(stereo.length > 0 ? [{ code: "balance", channels: idsOf(stereo) } as const] : []),
  ];
};

/** What is not exactly mirrored by a plan, who loses what, and what changes at FOH. */
export const notesOf = (situation: Situation, plan: RankedPlan): Note[] => {
  const { change, choices, residual } = plan;
  const pick = (mirrored: Mirrored): Voice[] => mirrored.map((at) => situation.voices[at] as Voice);
  const foh = change.panning === "foh" ? change.mirrored : [];
  const copies = choices.flatMap((c) => (c.does === "own bus" ? [c] : []));
  const inBus = new Set([
    ...(change.panning === "bus" ? change.mirrored : []),
    ...copies.flatMap((copy) => copy.mirrored),
  ]);
  const follows = foh.some((at) => situation.voices[at]?.send.pan === null);
  const turns: Turns = {
    swap: change.swap,
    bus: change.swap || copies.some((copy) => copy.swap),
    pans: inBus.size > 0 || follows,
  };
  return [
    ...(foh.length > 0 ? [{ code: "foh", channels: idsOf(pick(foh)) } as const] : []),
    ...lostNotes(situation, plan),
    ...(change.fold ? [{ code: "folded" } as const] : []),
    ...trimNotes(situation, residual, turns),
    ...sideNotes(situation, turns),
    ...panNotes(pick([...inBus].sort((a, b) => a - b)), pick(foh)),
  ];
};
