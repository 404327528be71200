import { describe, expect, it } from "vitest";
import { ACTIONS, NO_ACTION } from "../../../src/core/check/actions";
import type { Fault } from "../../../src/core/check/faults";
import { hypothesesOf } from "../../../src/core/check/hypotheses";
import { drumsIn, pickupOf } from "../../../src/core/check/pickup";
import { AT_BUS, AT_EARS, AT_MIXER } from "../../../src/core/check/wired-faults";
import { chain, FOLDED, gains, STRAIGHT, SWAPPED, type Wiring } from "../../../src/core/check/wiring";
import { mixedChannelsOf } from "../../../src/core/mix/bus";
import { inputGains, isSwapped } from "../../../src/core/mix/pair-order";
import { BLANK_BUS, BLANK_CHANNEL, BLANK_INPUT, BLANK_SEND } from "../../../src/core/model/defaults";
import type { Action, Bus, Channel, Listener, Piece, Setup } from "../../../src/core/model/setup";
import { numbers } from "../../tools/chance.mjs";
import { drummer, setupWith } from "./kits";

/*
 * What both ears get, the slow and plain way: the bus is changed as the fault changes it and mixed whole, every channel
 * of it, for every hit. A check does it for the few channels that a hit sounds through.
 */

/** Six drums and three places above them, several channels at each, some of them stereo, some nowhere. */
const chanced = (seed: number): { setup: Setup; bus: Bus; listener: Listener } => {
  const next = numbers(seed);
  const one = <T>(of: readonly T[]): T => of[Math.floor(next() * of.length)] as T;
  const pieces = Array.from(
    { length: 9 },
    (_, at): Piece => ({
      id: `p${at}`,
      name: `Piece ${at}`,
      kind: at < 6 ? "tom" : "overhead",
      x: 2 * next() - 1,
      y: next(),
      limbs: [at < 6 ? "hand" : "whole"],
      player: "drummer",
    }),
  );
  const channels = Array.from(
    { length: 24 },
    (_, at): Channel => ({
      ...BLANK_CHANNEL,
      id: `c${at}`,
      name: `Channel ${at}`,
      kind: "drum",
      piece: next() < 0.1 ? null : one(pieces).id,
      lines: next() < 0.25 ? 2 : 1,
      pan: one([-1, -0.6, 0, 0.3, 1]),
      inverted: next() < 0.3,
      muted: next() < 0.1,
    }),
  );
  const bus: Bus = {
    ...BLANK_BUS,
    id: "drums",
    name: "Drums",
    stereo: next() < 0.85,
    folded: next() < 0.15,
    sends: channels.map(({ id }) => ({
      ...BLANK_SEND,
      channel: id,
      level: next() < 0.1 ? null : -20 * next(),
      pan: next() < 0.4 ? one([-1, -0.2, 0, 0.7]) : null,
    })),
    sideTrim: [0, -3],
    sideInverted: [next() < 0.3, false],
  };
  const sides = next() < 0.5 ? (["left", "right"] as const) : (["right", "left"] as const);
  const inputs = sides.map((side) => ({
    ...BLANK_INPUT,
    feed: { kind: "bus", bus: "drums", side } as const,
    trim: -6 * next(),
    on: next() < 0.9,
  }));
  const from = setupWith(8, one(["sine", "linear"] as const));
  return {
    setup: {
      ...from,
      kit: { ...from.kit, pieces },
      channels,
      buses: [bus],
      monitor: { ...from.monitor, inputs: [null, null, ...inputs, null] },
    },
    bus,
    listener: { ...drummer, flipped: next() < 0.3, mono: next() < 0.2 },
  };
};

const wired = new Map<Fault, { at: "bus" | "mixer" | "ears"; wiring: Wiring }>([
  ...AT_BUS.map(([fault, wiring]) => [fault, { at: "bus", wiring }] as const),
  ...AT_MIXER.map(([fault, wiring]) => [fault, { at: "mixer", wiring }] as const),
  ...AT_EARS.map(([fault, wiring]) => [fault, { at: "ears", wiring }] as const),
]);

/** The bus as a fault leaves it. */
const changed = (setup: Setup, bus: Bus, fault: Fault, channel: string | null): Bus => {
  const channelOf = (id: string): Channel => setup.channels.find((c) => c.id === id) as Channel;
  const isOverhead = (id: string): boolean => {
    const { piece, lines } = channelOf(id);
    return lines === 1 && setup.kit.pieces.some((p) => p.id === piece && p.kind === "overhead");
  };
  const panOf = (send: Bus["sends"][number]): number => send.pan ?? channelOf(send.channel).pan;
  return {
    ...bus,
    sends: bus.sends.flatMap((send) => {
      if (fault === "missing" && send.channel === channel) return [];
      if (fault === "all-centred") return [{ ...send, pan: 0 }];
      const turns =
        (fault === "wrong-side" && send.channel === channel) ||
        (fault === "overheads-crossed" && isOverhead(send.channel));
      return [turns ? { ...send, pan: -panOf(send) } : send];
    }),
  };
};

const plainEars = (
  { setup, bus, listener }: ReturnType<typeof chanced>,
  { fault, channel }: { fault: Fault; channel: string | null },
  piece: Piece,
  overheads: number,
  action: Action | null,
) => {
  const pickup = pickupOf(setup);
  const done = action === null ? NO_ACTION : ACTIONS[action];
  const at = wired.get(fault);
  const behind = (place: "bus" | "mixer" | "ears"): Wiring => (at?.at === place ? at.wiring : STRAIGHT);
  // The listener's own mixer: once its mono switch is on, it is on, whoever pressed it.
  const own = [
    listener.mono ? FOLDED : listener.flipped ? SWAPPED : STRAIGHT,
    behind("mixer"),
    done.atOutput,
  ];
  const firstMono = own.indexOf(FOLDED);
  const way = chain(
    behind("bus"),
    gains(...inputGains(setup.monitor, bus)),
    isSwapped(setup, bus) ? SWAPPED : STRAIGHT,
    done.atInputs,
    ...own.map((wiring, at) => (wiring === FOLDED && at > firstMono ? STRAIGHT : wiring)),
    behind("ears"),
  );
  const places = new Map(setup.kit.pieces.map((p) => [p.id, p]));
  let [left, right, product] = [0, 0, 0];
  for (const part of mixedChannelsOf(setup, changed(setup, bus, fault, channel))) {
    const above = part.channel.lines === 1 && places.get(part.channel.piece ?? "")?.kind === "overhead";
    const gain = done.mutesOverheads && above ? 0 : pickup(piece, part.channel, overheads);
    for (const [l, r] of part.gains) {
      const [atLeft, atRight] = way.map(([fromL, fromR]) => gain * (fromL * l + fromR * r)) as [
        number,
        number,
      ];
      left += atLeft ** 2;
      right += atRight ** 2;
      product += atLeft * atRight;
    }
  }
  return { sides: [Math.sqrt(left), Math.sqrt(right)] as const, inverted: product < 0, product };
};

const ACTS = [null, ...(Object.keys(ACTIONS) as Action[])];
/** What another bus or input brings is `neighbours.test.ts`, what is switched on `hypotheses.test.ts`. */
const ELSEWHERE: readonly Fault[] = ["inputs-up", "inputs-down", "switched-on"];

describe("what a hit brings to both ears", () => {
  it.each(Array.from({ length: 8 }, (_, seed) => seed + 1))(
    "is what the whole bus brings, mixed anew for every fault and action; setup %i",
    (seed) => {
      const evening = chanced(seed);
      const { setup, bus, listener } = evening;
      const pickup = pickupOf(setup);
      const drums = drumsIn(setup, bus, pickup);
      const hypotheses = hypothesesOf(setup, listener, bus, pickup, drums).filter(
        ({ fault }) => !ELSEWHERE.includes(fault),
      );
      expect(hypotheses.length).toBeGreaterThan(15);
      const off: string[] = [];
      for (const hypothesis of hypotheses)
        for (const piece of setup.kit.pieces)
          for (const action of ACTS)
            for (const overheads of [-16, -6]) {
              const { sides, inverted } = hypothesis.image(piece, overheads, action);
              const plain = plainEars(evening, hypothesis, piece, overheads, action);
              const isOff = plain.sides.some(
                (gain, ear) => !(Math.abs((sides[ear] as number) - gain) <= 1e-12 * Math.max(1, gain)),
              );
              // Where both cancel, the sign is the rounding's.
              const isTurned = Math.abs(plain.product) > 1e-12 && inverted !== plain.inverted;
              if (isOff || isTurned) off.push(`${hypothesis.id}, ${piece.id}, ${action}, ${overheads} dB`);
            }
      expect(off).toEqual([]);
    },
  );
});
