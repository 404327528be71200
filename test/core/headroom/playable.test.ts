import fc from "fast-check";
import { expect, it } from "vitest";
import { busFigures } from "../../../src/core/headroom/figures";
import type { Limb, Piece, Setup } from "../../../src/core/model/setup";
import { expectNear } from "../../near";
import { anySetup, channel, onlyBus, piece, setupOf } from "./setups";

const playableOf = (setup: Setup) => busFigures(setup, onlyBus(setup)).sides[0].playable;

const LIMBS: readonly Limb[] = ["hand", "hand", "kick-foot", "hat-foot"];

/** Every way for the limbs of one player to strike pieces or rest; the largest sum of their peaks. */
const bestByHand = (
  pieces: readonly { readonly limbs: readonly Limb[]; readonly peak: number }[],
): number => {
  const go = (limb: number, struck: ReadonlySet<number>): number => {
    const name = LIMBS[limb];
    if (name === undefined) return [...struck].reduce((sum, i) => sum + (pieces[i]?.peak ?? 0), 0);
    let best = go(limb + 1, struck);
    pieces.forEach((p, i) => {
      if (p.limbs.includes(name)) best = Math.max(best, go(limb + 1, new Set([...struck, i])));
    });
    return best;
  };
  return go(0, new Set());
};

const bruteForce = (setup: Setup): number => {
  const pieces = new Map(setup.kit.pieces.map((p) => [p.id, p]));
  const struck = new Map<Piece, number>();
  let sum = 0;
  for (const { channel: id, peak } of busFigures(setup, onlyBus(setup)).sides[0].contributions) {
    const gain = 10 ** ((peak ?? -Infinity) / 20);
    const at = pieces.get(setup.channels.find((s) => s.id === id)?.piece ?? "");
    if (!at || at.limbs.includes("whole") || at.limbs.length === 0) sum += gain;
    else struck.set(at, (struck.get(at) ?? 0) + gain);
  }
  for (const player of new Set([...struck.keys()].map((p) => p.player))) {
    const own = [...struck].filter(([p]) => p.player === player);
    sum += bestByHand(own.map(([p, peak]) => ({ limbs: p.limbs, peak })));
  }
  return 20 * Math.log10(sum);
};

it("is the best of all combinations of limbs, by brute force", () => {
  fc.assert(
    fc.property(anySetup(9), (setup) => expectNear(playableOf(setup), bruteForce(setup), 1e-9)),
    { numRuns: 400 },
  );
});

const kit = (pieces: readonly Piece[], inBus: readonly string[] = pieces.map((p) => p.id)) =>
  playableOf(
    setupOf(
      inBus.map((id, i) => channel(`s${i}`, { piece: id, peak: 0 })),
      { pieces, bus: { stereo: false } },
    ),
  );
const ones = (n: number) => expect.closeTo(20 * Math.log10(n), 9);
const tom = (id: string, player?: string) => piece(id, ["hand"], player);

it("two hands strike two of five", () =>
  expect(kit(["a", "b", "c", "d", "e"].map((id) => tom(id)))).toEqual(ones(2)));

it("the feet add the kick and the hat, and a hand may take the hat while its foot rests", () => {
  const hat = piece("hat", ["hand", "hat-foot"]);
  const kick = piece("kick", ["kick-foot"]);
  expect(kit([tom("a"), tom("b"), tom("c"), hat, kick])).toEqual(ones(4));
  expect(kit([tom("a"), hat])).toEqual(ones(2));
  expect(kit([hat])).toEqual(ones(1));
});

it("a foot that nothing louder needs stays free", () => {
  // Both hats are struck by hand, so the kick's foot still counts, however soft.
  const hats = [piece("hat", ["hand", "hat-foot"]), piece("second hat", ["hand", "hat-foot"])];
  expect(kit([...hats, piece("kick", ["kick-foot"])])).toEqual(ones(3));
});

it("microphones at one piece sound together, once", () => {
  expect(kit([tom("a")], ["a", "a"])).toEqual(ones(2));
  expect(kit([tom("a"), tom("b"), tom("c")], ["a", "a", "b", "b", "c"])).toEqual(ones(4));
});

it("another player has hands of their own", () =>
  expect(kit([tom("a"), tom("b"), tom("c"), tom("d", "Noor"), tom("e", "Noor"), tom("f", "Noor")])).toEqual(
    ones(4),
  ));

it("what hears the whole kit, stands nowhere, or is sounded by nobody knows what always counts", () => {
  const always = [piece("over", ["whole"]), piece("odd", [])];
  expect(kit([tom("a"), tom("b"), tom("c"), ...always], ["a", "b", "c", "over", "odd", "nowhere"])).toEqual(
    ones(5),
  );
});

it("two hands and two feet sound four pieces and no fifth, whatever each could be sounded by", () => {
  const anyhow = (id: string) => piece(id, ["hand", "kick-foot", "hat-foot"]);
  expect(kit(["a", "b", "c", "d"].map(anyhow))).toEqual(ones(4));
  expect(kit(["a", "b", "c", "d", "e"].map(anyhow))).toEqual(ones(4));
});
