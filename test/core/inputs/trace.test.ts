import { describe, expect, it } from "vitest";
import { chainOf, routesOf, type TraceAbout, type TraceLook, traceOn } from "../../../src/core/inputs/trace";
import { LINK_RULES, type LinkCode } from "../../../src/core/inputs/trace-links";
import type { Channel, Listener, Setup } from "../../../src/core/model/setup";
import { bus, channel, direct, listener, setup, side } from "./setups";

const band = (): Setup => {
  const of = setup(
    [channel("kick"), channel("bass"), channel("keys", { lines: 2 }), channel("nobody")],
    [bus("drums", ["kick"])],
    [
      side("drums", "left", { port: 1 }),
      side("drums", "right", { port: 2 }),
      direct("bass", "both", { port: 3 }),
      direct("keys", "left"),
      direct("keys", "right"),
    ],
    16,
    [listener("mara", { kind: "drummer", bus: "drums" })],
  );
  return { ...of, desk: { ...of.desk, muteRule: { preFaderSends: false, directOuts: ["post-fader"] } } };
};
const MARA = "mara";
const mara = (of: Setup): Listener => of.listeners.find((l) => l.id === MARA) as Listener;
const chain = (about: TraceAbout, of = band()) => chainOf(of, mara(of), about) ?? [];
const codes = (about: TraceAbout, of = band()): LinkCode[] => chain(about, of).map((l) => l.code);
const broken = (about: TraceAbout, of: Setup): LinkCode[] =>
  chain(about, of).flatMap((l) => (l.broken ? [l.code] : []));
const withChannel = (id: string, more: Partial<Channel>, of = band()): Setup => ({
  ...of,
  channels: of.channels.map((c) => (c.id === id ? { ...c, ...more } : c)),
});
const OUT = { tap: "pre-fader", on: true, trim: 0 } as const;
const BASS: TraceAbout = { what: "channel", channel: "bass", bus: null };
const KICK: TraceAbout = { what: "channel", channel: "kick", bus: "drums" };
const AWAY: LinkCode[] = ["port", "monitor link", "monitor input"];
const EARS: LinkCode[] = ["mixer", "earphones"];

describe("the chain of links", () => {
  it("of a direct out before the fader has neither mute nor level in it", () => {
    expect(codes(BASS)).toEqual(["source", "feed", ...AWAY, ...EARS]);
  });

  it("of one after the fader has both", () => {
    const of = withChannel("bass", { directOut: { ...OUT, tap: "post-fader" } });
    expect(codes(BASS, of)).toEqual(["source", "mute", "feed", "level", ...AWAY, ...EARS]);
  });

  it("has the mute where the desk’s rule takes the tap point or the pre-fader send", () => {
    const of = band();
    const ruled: Setup = {
      ...of,
      desk: { ...of.desk, muteRule: { preFaderSends: true, directOuts: ["pre-fader"] } },
    };
    const pre: Setup = {
      ...of,
      buses: of.buses.map((b) => ({
        ...b,
        sends: b.sends.map((s) => ({ ...s, tap: "pre-fader" as const })),
      })),
    };
    expect(codes(BASS, ruled)).toContain("mute");
    expect(codes(KICK, pre)).not.toContain("mute");
    expect(codes(KICK, { ...pre, desk: ruled.desk })).toContain("mute");
  });

  it("of a channel in a stereo bus has its send, its levels and the stereo link at the mixer", () => {
    expect(codes(KICK)).toEqual(["source", "mute", "feed", "level", ...AWAY, "stereo link", ...EARS]);
  });

  it("of a stereo channel has the stereo link, of one of its inputs alone not", () => {
    expect(codes({ what: "channel", channel: "keys", bus: null })).toContain("stereo link");
    expect(codes({ what: "input", input: 3 })).not.toContain("stereo link");
  });

  it("of a bus at its input begins at the bus", () => {
    expect(codes({ what: "input", input: 0 })).toEqual(["level", ...AWAY, ...EARS]);
  });

  it("of everything begins at the link to the monitor system; of one side at that side’s port", () => {
    expect(codes({ what: "everything" })).toEqual(["monitor link", ...EARS]);
    const left = chain({ what: "side", side: "left" });
    expect(left[0]).toMatchObject({ code: "port", values: { inputs: [0], ports: [1] } });
  });

  it("of one side ends with the stereo link of both", () => {
    const links = chain({ what: "side", side: "left" });
    expect(links.find((l) => l.code === "monitor link")?.values).toMatchObject({ inputs: [0] });
    expect(links.find((l) => l.code === "stereo link")?.values).toEqual({ inputs: [0, 1], isPair: true });
  });

  it("of a side follows a swapped patch and a flip", () => {
    const of = band();
    const [l, r, ...rest] = of.monitor.inputs;
    const swapped: Setup = { ...of, monitor: { ...of.monitor, inputs: [r ?? null, l ?? null, ...rest] } };
    const port = (s: Setup) => chain({ what: "side", side: "left" }, s)[0]?.values;
    expect(port(swapped)).toMatchObject({ inputs: [0] });
    const flipped = { ...of, listeners: of.listeners.map((x) => ({ ...x, flipped: true })) };
    expect(port(flipped)).toMatchObject({ inputs: [1] });
  });

  it("is none where the plan has no way", () => {
    const of = band();
    expect(chainOf(of, mara(of), { what: "channel", channel: "nobody", bus: null })).toBeNull();
    expect(chainOf(of, mara(of), { what: "channel", channel: "bass", bus: "drums" })).toBeNull();
    expect(chainOf(of, mara(of), { what: "input", input: 9 })).toBeNull();
  });

  it("has a way for each feed of the channel", () => {
    const of = band();
    const twice = { ...of, monitor: { ...of.monitor, inputs: [...of.monitor.inputs, direct("kick")] } };
    expect(routesOf(twice, "kick")).toEqual([null, "drums"]);
    expect(routesOf(of, "nobody")).toEqual([]);
  });
});

describe("the plan’s own breaks", () => {
  it("are none in a sound plan", () => {
    for (const about of [BASS, KICK, { what: "side", side: "right" }] as const)
      expect(broken(about, band())).toEqual([]);
  });

  it.each<[string, TraceAbout, Setup, LinkCode]>([
    ["a direct out that is off", BASS, withChannel("bass", { directOut: { ...OUT, on: false } }), "feed"],
    ["a mute on a post-fader send", KICK, withChannel("kick", { muted: true }), "mute"],
    ["a fader down under a post-fader send", KICK, withChannel("kick", { fader: null }), "level"],
    [
      "a bus fader down",
      KICK,
      { ...band(), buses: band().buses.map((b) => ({ ...b, fader: null })) },
      "level",
    ],
    [
      "a send that is off",
      KICK,
      {
        ...band(),
        buses: band().buses.map((b) => ({ ...b, sends: b.sends.map((s) => ({ ...s, on: false })) })),
      },
      "feed",
    ],
    [
      "a port that is to feed something else",
      BASS,
      {
        ...band(),
        monitor: { ...band().monitor, inputs: band().monitor.inputs.map((i) => i && { ...i, port: 3 }) },
      },
      "port",
    ],
    [
      "an input that is off",
      BASS,
      {
        ...band(),
        monitor: { ...band().monitor, inputs: band().monitor.inputs.map((i) => i && { ...i, on: false }) },
      },
      "monitor input",
    ],
    [
      "an input beyond the last",
      BASS,
      { ...band(), monitor: { ...band().monitor, inputCount: 2 } },
      "monitor input",
    ],
    [
      "sides of a channel that are not neighbours",
      { what: "channel", channel: "keys", bus: null },
      {
        ...band(),
        monitor: { ...band().monitor, inputs: [direct("keys", "left"), null, direct("keys", "right")] },
      },
      "stereo link",
    ],
    [
      "a side without an input",
      KICK,
      { ...band(), monitor: { ...band().monitor, inputs: band().monitor.inputs.slice(1) } },
      "stereo link",
    ],
  ])("%s", (_, about, of, link) => {
    expect(broken(about, of)).toEqual([link]);
  });

  it("a mute on a pre-fader direct out is none", () => {
    expect(broken(BASS, withChannel("bass", { muted: true, fader: null }))).toEqual([]);
  });
});

describe("where to look next", () => {
  const look = (link: LinkCode, said: TraceLook["said"]): TraceLook => ({ link, said });

  it("follows the answers to one link, whichever it is", () => {
    const links = chain(KICK);
    links.forEach((culprit, at) => {
      const looks: TraceLook[] = [];
      for (;;) {
        const { next, suspects } = traceOn(links, looks);
        expect(suspects).toContain(culprit);
        if (next === null) {
          expect(suspects).toEqual([culprit]);
          break;
        }
        const behind = links.findIndex((l) => l.code === next);
        looks.push(look(next, behind < at ? "signal" : "no signal"));
      }
      expect(looks.length).toBeLessThan(links.length);
    });
  });

  it("expects the cost of its own looks, by the weights", () => {
    const links = chain(KICK);
    const weight = links.reduce((sum, { code }) => sum + LINK_RULES[code].weight, 0);
    const spent = links.reduce((sum, { code }, at) => {
      const looks: TraceLook[] = [];
      for (let { next } = traceOn(links, looks); next !== null; { next } = traceOn(links, looks))
        looks.push(look(next, links.findIndex((l) => l.code === next) < at ? "signal" : "no signal"));
      const cost = looks.reduce((c, l) => c + (LINK_RULES[l.link].lookCost ?? Number.NaN), 0);
      return sum + (LINK_RULES[code].weight / weight) * cost;
    }, 0);
    expect(traceOn(links, []).cost).toBeCloseTo(spent, 12);
  });

  it("does not ask again what nobody can see, and leaves what it cannot tell apart together", () => {
    const links = chain(BASS);
    const first = traceOn(links, []).next as LinkCode;
    expect(traceOn(links, [look(first, "unseen")]).next).not.toBe(first);
    const blind = links.map(({ code }) => look(code, "unseen"));
    expect(traceOn(links, blind)).toEqual({ suspects: links, next: null, cost: 0 });
    const some = [look("port", "unseen"), look("monitor link", "unseen"), look("feed", "signal")];
    const { suspects, next } = traceOn(links, [...some, look("monitor input", "no signal")]);
    expect(next).toBeNull();
    expect(suspects.map((l) => l.code)).toEqual(AWAY);
  });

  it("knows a contradiction: signal behind a link, none before it", () => {
    const looks = [look("port", "signal"), look("source", "no signal")];
    expect(traceOn(chain(BASS), looks)).toEqual({ suspects: [], next: null, cost: 0 });
  });

  it("takes no notice of a look behind a link that is not there", () => {
    expect(traceOn(chain(BASS), [look("stereo link", "no signal")])).toEqual(traceOn(chain(BASS), []));
  });

  it("every link but the last can be looked behind, and weighs something", () => {
    const all = Object.entries(LINK_RULES);
    expect(all.filter(([, r]) => r.lookCost === null).map(([code]) => code)).toEqual(["earphones"]);
    expect(all.every(([, r]) => r.weight > 0)).toBe(true);
  });
});
