import { describe, expect, it } from "vitest";
import { isSwapped } from "../../src/core/mix/pair-order";
import { hearsFoh } from "../../src/core/model/kinds";
import type { MonitorInput } from "../../src/core/model/setup";
import {
  addBus,
  duplicateBus,
  editBus,
  removeBus,
  setSend,
  swapBus,
} from "../../src/document/commands/buses";
import {
  addChannel,
  duplicateChannel,
  editChannel,
  moveChannel,
  removeChannel,
} from "../../src/document/commands/channels";
import { answer, endCheck, startCheck, tickInput, undoAnswer } from "../../src/document/commands/check";
import { editInput, moveInput, setInput, setInputCount, swapLines } from "../../src/document/commands/inputs";
import { addPiece, editPiece, removePiece, setHand } from "../../src/document/commands/kit";
import { addListener, removeListener } from "../../src/document/commands/listeners";
import { editEarphone, editPreferences } from "../../src/document/commands/settings";
import { LIMITS } from "../../src/document/limits";
import type { SetupFile } from "../../src/document/schema";
import { bandSetup } from "./band";
import { applied } from "./commands";
import { measured } from "./measured";

const example = bandSetup();
const names = (list: readonly { readonly name: string }[]) => list.map((item) => item.name);

/** What is in the inputs, short: "m1L", "s11R", "s9", "-". */
const inInputs = (file: SetupFile): string =>
  file.monitor.inputs
    .map((input) => {
      if (!input) return "-";
      if (input.feed.kind === "bus") return input.feed.bus + (input.feed.side === "left" ? "L" : "R");
      const { channel, side } = input.feed;
      return channel + { both: "", left: "L", right: "R" }[side];
    })
    .join(" ");

const drums = (file: SetupFile) => {
  const bus = file.buses[0];
  if (!bus) throw new Error("no drums");
  return bus;
};

describe("channels", () => {
  it("duplicates with name, id and sends of its own, right behind", () => {
    const file = applied(example, duplicateChannel("s4"));
    expect(names(file.channels).slice(3, 6)).toEqual(["Tom 1", "Tom 3", "Tom 2"]);
    expect(file.channels[4]?.id).toBe("s19");
    expect(drums(file).sends.at(-1)).toEqual({
      channel: "s19",
      on: true,
      level: -5,
      tap: "post-fader" as const,
      pan: null,
    });
  });

  it("sends a new one into the wanted sum only", () => {
    expect(drums(applied(example, addChannel("m1"))).sends.at(-1)).toEqual({
      channel: "s19",
      on: true,
      level: 0,
      tap: "post-fader",
      pan: null,
    });
    expect(drums(applied(example, addChannel(null)))).toBe(drums(example));
  });

  it("takes everything that hung on it along, but not the piece", () => {
    const recording = {
      name: "Rehearsal",
      seconds: 60,
      channels: [measured("s1"), measured("s11"), measured("s3")],
      correlation: [
        [1, 0.1, 0.2],
        [0.1, 1, 0.3],
        [0.2, 0.3, 1],
      ],
    };
    const file = applied(
      { ...example, recording },
      tickInput(4, true),
      removeChannel("s11"),
      removeChannel("s1"),
    );
    expect(file.channels).toHaveLength(16);
    expect(drums(file).sends).toHaveLength(7);
    expect(inInputs(file)).toBe("m1L m1R s9 s10 - - s12 s13 s14 s15 s16 s18 s17L s17R - -");
    expect(file.recording).toEqual({ ...recording, channels: [measured("s3")], correlation: [[1]] });
    expect(file.lineCheck).toEqual({});
    expect(file.kit.pieces).toBe(example.kit.pieces);
  });

  it("moves past another, however far away that is, and nowhere past itself or one that is not there", () => {
    const order = (id: string, past: string) =>
      applied(example, moveChannel(id, past))
        .channels.slice(0, 4)
        .map((s) => s.id);
    expect(order("s2", "s3")).toEqual(["s1", "s3", "s2", "s4"]);
    expect(order("s2", "s1")).toEqual(["s2", "s1", "s3", "s4"]);
    expect(order("s1", "s4")).toEqual(["s2", "s3", "s4", "s1"]);
    expect(order("s4", "s1")).toEqual(["s4", "s1", "s2", "s3"]);
    for (const [id, past] of [
      ["s1", "s1"],
      ["s1", "s99"],
      ["s99", "s1"],
    ] as const)
      expect(applied(example, moveChannel(id, past))).toBe(example);
  });

  it("made mono fills its inputs with the one channel", () => {
    expect(inInputs(applied(example, editChannel("s11", { lines: 1 })))).toContain("s10 s11 s11 s12");
  });

  it("stops at the limit", () => {
    const filled = Array.from({ length: LIMITS.channels }, () => addChannel(null));
    const file = applied(example, ...filled);
    expect(file.channels).toHaveLength(LIMITS.channels);
    expect(applied(file, duplicateChannel("s1"))).toBe(file);
  });
});

describe("buses", () => {
  it("swaps a pair at the patch and back again", () => {
    const swapped = applied(example, swapBus("m1"));
    expect(inInputs(swapped).slice(0, 7)).toBe("m1R m1L");
    expect(drums(swapped).swapped).toBe(true);
    expect(isSwapped(swapped, drums(swapped))).toBe(true);
    expect(applied(swapped, swapBus("m1"))).toEqual(example);
  });

  it("swaps the channels of a channel and back, trims and switches stay, and one alone stays as it is", () => {
    const at = example.monitor.inputs.findIndex(
      (x) => x?.feed.kind === "channel" && x.feed.channel === "s11",
    );
    const trimmed = applied(example, editInput(at, { trim: -3, on: false }), tickInput(at, true));
    const swapped = applied(trimmed, swapLines("s11"));
    expect(inInputs(swapped)).toBe(inInputs(example).replace("s11L s11R", "s11R s11L"));
    expect(swapped.monitor.inputs.map((x) => [x?.trim, x?.on])).toEqual(
      trimmed.monitor.inputs.map((x) => [x?.trim, x?.on]),
    );
    expect(swapped.lineCheck).toEqual({});
    expect(applied(swapped, swapLines("s11")).monitor).toEqual(trimmed.monitor);
    const alone = applied(example, setInput(at, null));
    expect(applied(alone, swapLines("s11"))).toBe(alone);
    expect(applied(example, swapLines("s9"))).toBe(example);
  });

  it("leaves an input its trim and switch when sides change places", () => {
    const file = applied(example, editInput(0, { trim: -3, on: false }), swapBus("m1"));
    expect(file.monitor.inputs[0]).toEqual({
      feed: { kind: "bus", bus: "m1", side: "right" },
      port: null,
      trim: -3,
      on: false,
    });
  });

  it("turns the image round even where plan and patch did not agree", () => {
    const crossed = applied(example, editBus("m1", { swapped: true }));
    expect(isSwapped(crossed, drums(crossed))).toBe(false);
    const swapped = applied(crossed, swapBus("m1"));
    expect(isSwapped(swapped, drums(swapped))).toBe(true);
    expect(drums(swapped).swapped).toBe(true);
  });

  it("swaps the plan only where a side has no input, and nothing in a mono bus", () => {
    const partly = applied(example, setInput(1, null), swapBus("m1"));
    expect(inInputs(partly).slice(0, 5)).toBe("m1L -");
    expect(isSwapped(partly, drums(partly))).toBe(true);
    const mono = applied(example, editBus("m1", { stereo: false }));
    expect(applied(mono, swapBus("m1"))).toBe(mono);
  });

  it("made mono gives the right side's input back", () => {
    expect(inInputs(applied(example, editBus("m1", { stereo: false }))).slice(0, 5)).toBe("m1L -");
  });

  it("taken away frees its inputs and its listeners", () => {
    const file = applied(example, removeBus("m1"));
    expect(file.listeners.every((l) => l.bus === null)).toBe(true);
    expect(inInputs(file).slice(0, 4)).toBe("- - ");
  });

  it("duplicates its sends but nobody hears the copy", () => {
    const file = applied(example, addBus(true, "Horns"), duplicateBus("m1"));
    expect(names(file.buses)).toEqual(["Drums", "Drums 2", "Horns"]);
    expect(file.buses[1]?.sends).toEqual(drums(file).sends);
    expect(file.listeners).toBe(example.listeners);
  });

  it("puts a channel in, changes and takes out its send", () => {
    const sendOf = (file: SetupFile) => drums(file).sends.find((send) => send.channel === "s9");
    const put = applied(example, setSend("m1", "s9", { pan: 0.5 }));
    expect(sendOf(put)).toEqual({ channel: "s9", on: true, level: 0, tap: "post-fader" as const, pan: 0.5 });
    expect(sendOf(applied(put, setSend("m1", "s9", { level: -3 })))).toEqual({
      channel: "s9",
      on: true,
      tap: "post-fader",
      level: -3,
      pan: 0.5,
    });
    expect(sendOf(applied(put, setSend("m1", "s9", null)))).toBeUndefined();
    expect(applied(example, setSend("m1", "nobody", {}))).toBe(example);
    expect(applied(example, setSend("m1", "s9", null))).toBe(example);
  });
});

describe("kit and listeners", () => {
  const xOf = (file: SetupFile, name: string) => file.kit.pieces.find((p) => p.name === name)?.x;
  const places = (file: SetupFile) => [
    xOf(file, "Hat"),
    xOf(file, "Ride"),
    xOf(file, "Overhead L"),
    xOf(file, "Kick"),
  ];
  const withRide = applied(example, addPiece("ride", "Ride"));

  it("mirrors for a left-handed drummer, moves the ride alone for an open-handed one, the microphones above never", () => {
    expect(places(withRide)).toEqual([-0.5, 0.55, 0.5, 0]);
    const left = applied(withRide, setHand("left"));
    expect(places(left)).toEqual([0.5, -0.55, 0.5, 0]);
    const open = applied(left, setHand("open"));
    expect(places(open)).toEqual([-0.5, -0.55, 0.5, 0]);
    expect(applied(open, setHand("right"))).toEqual(withRide);
  });

  it("puts no two new pieces in one place", () => {
    const file = applied(example, ...Array.from({ length: 8 }, () => addPiece("tom", "Tom 1")));
    const spots = file.kit.pieces.map(({ x, y }) => `${x} ${y}`);
    expect(new Set(spots).size).toBe(spots.length);
    expect(new Set(names(file.kit.pieces)).size).toBe(file.kit.pieces.length);
  });

  it("takes a piece from its source and the check, not the channel with it", () => {
    const file = applied(
      example,
      startCheck("l2"),
      answer("p1", "middle"),
      answer("p3", "left"),
      removePiece("p3"),
    );
    expect(file.channels.find((s) => s.name === "Hat")?.piece).toBeNull();
    expect(file.check?.hits).toEqual([{ piece: "p1", answer: "middle" }]);
  });

  it("keeps drummer and audience; gives the first place to the drummer when its holder goes", () => {
    expect(applied(example, removeListener("l1"))).toBe(example);
    expect(applied(example, removeListener("l2"))).toBe(example);
    // Of two who hear FOH either can be removed, and then no more.
    const [audience] = example.listeners;
    if (!audience) throw new Error("no audience");
    const two = { ...example, listeners: [...example.listeners, { ...audience, id: "l9", name: "Balcony" }] };
    expect(applied(two, removeListener("l9")).listeners).toEqual(example.listeners);
    const one = applied(two, removeListener("l1"));
    expect(one.listeners.filter(hearsFoh).map((l) => l.name)).toEqual(["Balcony"]);
    expect(applied(one, removeListener("l9"))).toBe(one);
    const file = applied(example, editPreferences({ first: "l6" }), startCheck("l6"), removeListener("l6"));
    expect([file.preferences.first, file.check]).toEqual(["l2", null]);
    expect(applied(example, editPreferences({ first: "nobody" }))).toEqual(example);
  });

  it("gives a new performer what the drummer hears", () => {
    expect(applied(example, addListener()).listeners.at(-1)).toMatchObject({
      id: "l7",
      kind: "performer",
      bus: "m1",
    });
  });

  it("begins, changes and ends the estimate at the ear", () => {
    const begun = applied(example, editEarphone({ impedance: 16 }));
    expect(begun.earphone?.impedance).toBe(16);
    expect(applied(begun, editEarphone({ drive: 1 })).earphone).toEqual({ ...begun.earphone, drive: 1 });
    expect(applied(begun, editEarphone(null))).toEqual(example);
  });
});

describe("inputs", () => {
  const order = (from: number, to: number) => inInputs(applied(example, moveInput(from, to)));
  const was = "m1L m1R s9 s10 s11L s11R s12 s13 s14 s15 s16 s18 s17L s17R - -";

  it("moves one past others", () => {
    expect(inInputs(example)).toBe(was);
    expect(order(2, 3)).toBe(was.replace("s9 s10", "s10 s9"));
    expect(order(11, 2)).toBe(was.replace("s18 ", "").replace("s9", "s18 s9"));
    expect(order(14, 15)).toBe(was);
  });

  it("moves a pair together, whichever half is taken", () => {
    const moved = was.replace("m1L m1R s9", "s9 m1L m1R");
    expect(order(0, 1)).toBe(moved);
    expect(order(1, 2)).toBe(moved);
    expect(order(4, 0)).toBe("s11L s11R m1L m1R s9 s10 s12 s13 s14 s15 s16 s18 s17L s17R - -");
  });

  it("tears no pair apart that it passes", () => {
    expect(order(3, 4)).toBe(was.replace("s10 s11L s11R", "s11L s11R s10"));
    expect(order(6, 5)).toBe(was.replace("s11L s11R s12", "s12 s11L s11R"));
  });

  it("stops at the ends and ignores inputs that are not there", () => {
    expect(order(0, -5)).toBe(was);
    expect(applied(example, moveInput(99, 0))).toBe(example);
    expect(order(2, 99).endsWith("s17L s17R - - s9")).toBe(true);
  });

  it("keeps what is over the input count, and shortens only what is free", () => {
    const nine = applied(example, setInputCount(9));
    expect(inInputs(nine)).toBe(was.replace(" - -", ""));
    expect(inInputs(applied(nine, setInputCount(20)))).toBe(`${was} - - - -`);
    expect(applied(example, setInputCount(7))).toBe(example);
    expect(applied(example, setInputCount(8.5))).toBe(example);
  });

  it("forgets the tick of an input that takes something else, keeps the others", () => {
    const ticked = applied(example, tickInput(2, true), tickInput(3, false), tickInput(6, true));
    expect(applied(ticked, moveInput(2, 3)).lineCheck).toEqual({ 6: true });
    expect(applied(ticked, editInput(2, { trim: -1 })).lineCheck).toEqual(ticked.lineCheck);
    expect(applied(ticked, setInput(3, null)).lineCheck).toEqual({ 2: true, 6: true });
    expect(applied(ticked, tickInput(2, null)).lineCheck).toEqual({ 3: false, 6: true });
    expect(applied(ticked, tickInput(2, true))).toBe(ticked);
    expect(applied(example, tickInput(15, true))).toBe(example);
  });

  it("takes no feed of something that is not there", () => {
    const ghost: MonitorInput = {
      feed: { kind: "bus", bus: "m9", side: "left" },
      port: null,
      on: true,
      trim: 0,
    };
    expect(inInputs(applied(example, setInput(15, ghost)))).toBe(was);
    expect(applied(example, setInput(-1, ghost))).toBe(example);
    expect(applied(example, setInput(LIMITS.inputs, ghost))).toBe(example);
  });
});

describe("the check at the kit", () => {
  it("is kept answer by answer and taken back", () => {
    const begun = applied(example, startCheck("l2"), answer("p1", "middle"), answer("p3", "right"));
    expect(begun.check).toEqual({
      listener: "l2",
      hits: [
        { piece: "p1", answer: "middle" },
        { piece: "p3", answer: "right" },
      ],
    });
    expect(applied(begun, undoAnswer()).check?.hits).toHaveLength(1);
    expect(applied(begun, endCheck())).toEqual(example);
    expect(applied(begun, startCheck("l6")).check).toEqual({ listener: "l6", hits: [] });
  });

  it("takes nothing when none is under way or nobody listens", () => {
    expect(applied(example, answer("p1", "left"))).toBe(example);
    expect(applied(example, startCheck("nobody"))).toBe(example);
    const begun = applied(example, startCheck("l2"));
    expect(applied(begun, undoAnswer())).toBe(begun);
    expect(applied(begun, answer("nothing", "left"))).toEqual(begun);
  });
});

describe("a piece that becomes another kind", () => {
  const limbs = (...patches: Parameters<typeof editPiece>[1][]) =>
    applied(example, addPiece("other"), ...patches.map((patch) => editPiece("p11", patch))).kit.pieces.at(-1)
      ?.limbs;

  it("is sounded as that kind is", () => {
    expect(limbs({ kind: "kick" })).toEqual(["kick-foot"]);
    expect(limbs({ kind: "overhead" })).toEqual(["whole"]);
    expect(limbs({ kind: "overhead" }, { kind: "hat" }, { kind: "snare" })).toEqual(["hand"]);
  });

  it("but not where it was sounded in a way of its own, or is given one", () => {
    expect(limbs({ limbs: ["hat-foot"] }, { kind: "kick" })).toEqual(["hat-foot"]);
    expect(limbs({ kind: "kick", limbs: ["hat-foot"] })).toEqual(["hat-foot"]);
    expect(limbs({ kind: "kick" }, { name: "Kick 2" })).toEqual(["kick-foot"]);
  });
});

describe("a patch that changes nothing", () => {
  it("is the very same setup", () => {
    expect(
      applied(
        example,
        editPiece("p1", { name: "Kick", kind: "kick" }),
        editChannel("s1", { pan: 0 }),
        editInput(0, { on: true }),
      ),
    ).toBe(example);
  });
});
