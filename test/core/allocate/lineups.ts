import type { AllocationChannel, AllocationProblem } from "../../../src/core/allocate/model";
import type { AllocationKind } from "../../../src/core/allocate/rules";
import { channel, musician, problem } from "./problems";

/*
 * Shows as bands bring them, all invented: a community hall’s soul band and its guests. Common practice, no source.
 */

type More = Partial<AllocationChannel>;

/** So many channels of a kind, numbered where there are several. */
const some = (count: number, kind: AllocationKind, name: string, more: More = {}): AllocationChannel[] =>
  Array.from({ length: count }, (_, i) => {
    const called = count === 1 ? name : `${name} ${i + 1}`;
    return channel(called, kind, more);
  });

const wide = { width: 2 } as const;

/** Eight microphones: kick, snare, hat, three toms, two overheads. */
const drums = (kit = ""): AllocationChannel[] => {
  const more: More = kit ? { section: kit } : {};
  const called = (name: string) => (kit ? `${name} (${kit})` : name);
  return [
    channel(called("Kick"), "kick", more),
    channel(called("Snare"), "snare", more),
    ...["Hat", "Tom 1", "Tom 2", "Floor tom", "OH L", "OH R"].map((name) =>
      channel(called(name), "drum", more),
    ),
  ];
};

const click = channel("Click", "click", { wantedBy: ["Drummer"] });
const talk = channel("Talk", "talkback");

const people = (...names: string[]) => names.map((name) => musician(name));

/** In the order in which channels stand at a desk: numbers follow the list. */
const show = (
  inputs: number,
  names: readonly string[],
  channels: readonly AllocationChannel[],
  more: Partial<AllocationProblem> = {},
): AllocationProblem =>
  problem(
    inputs,
    channels.map((c, i) => ({ ...c, number: i + 1 })),
    { musicians: people(...names), ...more },
  );

const sings = (name: string, player: string | null = name): More => ({ name: `${name} vox`, player });

const trio = [
  ...drums(),
  ...some(1, "bass", "Bass"),
  ...some(1, "guitar", "Guitar"),
  channel("Vox", "lead-vocal", { player: "Guitarist" }),
  channel("Tracks", "playback", wide),
  click,
  talk,
];

const speeches = [
  ...some(2, "speech", "Handheld"),
  channel("Lectern", "speech"),
  channel("Video", "video", wide),
];

/** Lines-up with what they are called; the numbers are those of the inputs. */
export const LINE_UPS: { readonly [name: string]: AllocationProblem } = {
  "trio with tracks": show(16, ["Drummer", "Bassist", "Guitarist"], trio),

  "soul band of ten": show(
    16,
    ["Drummer", "Bassist", "Guitarist", "Keys", "Lead", "Bea", "Cy"],
    [
      ...drums(),
      ...some(1, "bass", "Bass"),
      ...some(1, "guitar", "Guitar"),
      channel("Keys", "keys", wide),
      ...some(1, "horn", "Trumpet"),
      ...some(1, "horn", "Sax"),
      ...some(1, "horn", "Trombone"),
      channel("Lead", "lead-vocal", sings("Lead")),
      channel("BV 1", "vocal", sings("Bea")),
      channel("BV 2", "vocal", sings("Cy")),
      channel("Playback", "playback", wide),
      talk,
      channel("Host", "speech"),
      channel("Crowd", "audience", wide),
    ],
  ),

  "two keyboard players, four singers, click and tracks": show(
    16,
    ["Drummer", "Bassist", "Gil", "Hal", "Ina", "Jo", "Lead", "Bea", "Cy", "Di"],
    [
      ...drums(),
      ...some(1, "bass", "Bass"),
      ...some(2, "guitar", "Modeller", { ...wide, keepsSides: true }),
      channel("Keys 1", "keys", wide),
      channel("Keys 2", "keys", wide),
      channel("Lead", "lead-vocal", sings("Lead")),
      channel("Vox 2", "vocal", sings("Bea")),
      channel("Vox 3", "vocal", sings("Cy")),
      channel("Vox 4", "vocal", sings("Di")),
      channel("Tracks", "playback", wide),
      click,
      ...speeches,
      ...some(2, "audience", "Crowd"),
    ],
  ),

  "acoustic quintet without kit": show(
    16,
    ["Ann", "Bob", "Cat", "Dan", "Eve"],
    [
      ...some(1, "percussion", "Cajon", { player: "Dan" }),
      ...some(1, "bass", "Double bass"),
      ...some(1, "guitar", "Guitar"),
      ...some(1, "guitar", "Mandolin"),
      channel("Piano", "keys", wide),
      ...some(1, "strings", "Fiddle"),
      channel("Ann vox", "lead-vocal", sings("Ann")),
      channel("Bob vox", "vocal", sings("Bob")),
      channel("Cat vox", "vocal", sings("Cat")),
    ],
  ),

  "musical with eight headsets and a pit of nine": show(
    16,
    ["MD", "Drummer", "Bassist", "Guitarist"],
    [
      ...drums(),
      ...some(1, "bass", "Bass"),
      ...some(1, "guitar", "Guitar"),
      channel("Keys 1", "keys", { ...wide, player: "MD" }),
      channel("Keys 2", "keys", wide),
      ...some(2, "horn", "Reed", { rule: { stereo: "prefer", panned: true } }),
      ...some(1, "horn", "Trumpet", { rule: { stereo: "prefer", panned: true } }),
      ...some(2, "strings", "Violin"),
      ...some(4, "vocal", "Principal", { section: "Principals", rule: { own: "no-matter" } }),
      ...some(4, "vocal", "Ensemble", { section: "Ensemble", rule: { own: "no-matter" } }),
      channel("MD mic", "talkback", { rule: { own: "must" } }),
      click,
    ],
  ),

  "big band of seventeen": show(
    16,
    ["Drummer", "Bassist", "Guitarist", "Pianist", "Singer"],
    [
      ...drums(),
      ...some(1, "bass", "Bass"),
      ...some(1, "guitar", "Guitar"),
      channel("Piano lo", "keys", { instrument: "Piano" }),
      channel("Piano hi", "keys", { instrument: "Piano" }),
      ...some(4, "horn", "Trumpet", { section: "Trumpets" }),
      ...some(4, "horn", "Trombone", { section: "Trombones" }),
      ...some(5, "horn", "Sax", { section: "Saxes" }),
      channel("Soloist", "horn", { rule: { own: "prefer" } }),
      channel("Singer", "lead-vocal", sings("Singer")),
    ],
  ),

  "speech event with house band": show(
    16,
    ["Drummer", "Bassist", "Guitarist"],
    [...trio, channel("Presenter", "speech", { rule: { own: "prefer" } }), ...speeches],
  ),

  "two drummers": show(
    16,
    ["Drummer", "Second drummer", "Bassist", "Lead"],
    [
      ...drums("Kit A"),
      ...drums("Kit B"),
      ...some(2, "percussion", "Conga"),
      ...some(1, "bass", "Bass"),
      ...some(2, "guitar", "Guitar"),
      channel("Keys", "keys", wide),
      ...some(3, "horn", "Horn"),
      channel("Lead", "lead-vocal", sings("Lead")),
      ...some(2, "vocal", "BV"),
      click,
      ...some(1, "speech", "Host"),
      channel("Video", "video", wide),
    ],
    { swapped: ["drums/Kit B"] },
  ),

  "the same band on an 8-input system": show(
    8,
    ["Drummer", "Bassist", "Guitarist", "Lead"],
    [
      ...drums(),
      ...some(1, "bass", "Bass"),
      ...some(2, "guitar", "Guitar"),
      channel("Keys 1", "keys", wide),
      channel("Keys 2", "keys", wide),
      channel("Lead", "lead-vocal", sings("Lead")),
      ...some(3, "vocal", "BV"),
      channel("Tracks", "playback", wide),
      click,
      ...some(1, "speech", "Host"),
      channel("Video", "video", wide),
    ],
  ),

  "forty channels on a 40-input system": show(
    40,
    ["Drummer", "Bassist", "Gil", "Keys", "Lead", "Bea", "Cy"],
    [
      ...drums(),
      ...some(3, "percussion", "Perc"),
      ...some(2, "bass", "Bass"),
      ...some(4, "guitar", "Guitar"),
      ...some(3, "keys", "Keys", wide),
      ...some(4, "horn", "Horn"),
      ...some(2, "strings", "Violin"),
      channel("Lead", "lead-vocal", sings("Lead")),
      ...some(5, "vocal", "BV"),
      ...some(2, "playback", "Tracks", wide),
      click,
      talk,
      ...some(2, "speech", "Host"),
      channel("Video", "video", wide),
      channel("Crowd", "audience", wide),
    ],
  ),

  "wedding band with guests: what is on the knobs stays": show(
    16,
    ["Drummer", "Bassist", "Guitarist", "Lead"],
    [
      ...drums().map((c, i) => ({ ...c, currentInputs: i < 2 ? [i + 1] : [3, 4] })),
      channel("Bass", "bass", { currentInputs: [8] }),
      channel("Guitar", "guitar", { currentInputs: [9] }),
      channel("Keys", "keys", { ...wide, currentInputs: [5, 6] }),
      channel("Lead", "lead-vocal", { ...sings("Lead"), currentInputs: [7] }),
      channel("Guest vox", "vocal"),
      channel("Guest sax", "horn"),
      channel("DJ", "playback", wide),
    ],
  ),

  "a cappella octet with a beatboxer": show(
    16,
    ["Sop", "Mez", "Alt", "Con", "Ten", "Bar", "Bas", "Box"],
    [
      ...["Sop", "Mez", "Alt", "Con", "Ten", "Bar", "Bas"].map((name) => channel(name, "vocal", sings(name))),
      channel("Box", "percussion", { player: "Box", rule: { own: "must", stereo: "no" } }),
      channel("Pitch pipe", "click", { wantedBy: ["Sop", "Bas"] }),
      ...some(1, "effects", "Verb", wide),
      ...some(2, "audience", "Room"),
    ],
  ),

  "funk band with two microphones on everything": show(
    12,
    ["Drummer", "Bassist", "Guitarist", "Organist", "Lead"],
    [
      channel("Kick in", "kick", { instrument: "Kick" }),
      channel("Kick out", "kick", { instrument: "Kick" }),
      channel("Snare top", "snare", { instrument: "Snare" }),
      channel("Snare bottom", "snare", { instrument: "Snare" }),
      ...some(4, "drum", "Overhead and tom"),
      channel("Bass DI", "bass", { instrument: "Bass" }),
      channel("Bass amp", "bass", { instrument: "Bass" }),
      ...some(1, "guitar", "Guitar"),
      channel("Rotary lo", "keys", { instrument: "Organ" }),
      channel("Rotary hi", "keys", { instrument: "Organ" }),
      ...some(3, "horn", "Horn"),
      channel("Lead", "lead-vocal", sings("Lead")),
      ...some(2, "vocal", "BV"),
    ],
  ),

  "street duo on four inputs": show(
    4,
    ["Ada", "Bo"],
    [
      channel("Guitar", "guitar", { player: "Bo" }),
      channel("Stomp box", "kick"),
      channel("Loop station", "playback", wide),
      channel("Ada vox", "lead-vocal", sings("Ada")),
      channel("Bo vox", "vocal", sings("Bo")),
    ],
  ),

  "theatre orchestra in mono packs on 24": show(
    24,
    [],
    [
      ...drums(),
      ...some(2, "percussion", "Timpani"),
      ...some(1, "bass", "Double bass"),
      channel("Harp", "other"),
      channel("Piano", "keys", wide),
      ...some(6, "strings", "Violin", { section: "Violins" }),
      ...some(4, "strings", "Cello", { section: "Cellos" }),
      ...some(4, "horn", "Brass", { section: "Brass" }),
      ...some(4, "horn", "Wood", { section: "Woodwind" }),
      ...some(2, "vocal", "Soloist", { rule: { own: "must" } }),
      ...some(4, "vocal", "Choir"),
      channel("Effects", "playback", wide),
      click,
      talk,
      channel("Stage manager", "speech"),
    ],
    { musicians: ["Conductor", "Drummer", "Soloist 1"].map((name) => musician(name, true)) },
  ),
};
