import type { Setup, Slot } from "../setup";
import { changeSaid, counted, listed, sentence, slotsSaid, thingCalled } from "../words";
import { type Edit, flag, type PatchFlag } from "./flag";
import { withinCount } from "./place";
import { about, patchedThings, repeatsOf } from "./sides";
import { TAP_ADVICE, TAP_NAMES } from "./taps";
import { heardTwice, riseOfCopy } from "./twice";
import { slotsOfSource, usageOf } from "./usage";

const free = (indexes: readonly number[]): Edit[] =>
  indexes.map((index) => ({ edit: "slot", index, to: null }));

/** More feeds than slots, or something beyond the last slot while others are free. */
export const overFlags = (setup: Setup): PatchFlag[] => {
  const { used, over, tooMany, free: room } = usageOf(setup);
  if (over.length === 0) return [];
  const count = setup.monitor.slotCount;
  if (tooMany > 0) {
    const says = `${counted(used.length, "feed")} for ${counted(count, "slot")}: ${tooMany} too many.`;
    return [flag("over", "fault", { slots: over }, says, "Choose one of the ways back under the count.")];
  }
  const slots = withinCount(setup);
  const fix = Array.from({ length: Math.max(slots.length, setup.monitor.slots.length) }, (_, index) => index)
    .filter((index) => (slots[index] ?? null) !== (setup.monitor.slots[index] ?? null))
    .map((index): Edit => ({ edit: "slot", index, to: slots[index] ?? null }));
  return [
    flag(
      "over",
      "fault",
      { slots: over },
      `${sentence(slotsSaid(over))} ${over.length === 1 ? "is" : "are"} beyond the ${count} there are.`,
      `Move ${over.length === 1 ? "it" : "them"} into free slots: ${listed(room.map((i) => String(i + 1)))} ${room.length === 1 ? "is" : "are"} free.`,
      fix,
    ),
  ];
};

/** Sources with slots of their own that are inside a patched sum too. */
export const twiceFlags = (setup: Setup): PatchFlag[] =>
  heardTwice(setup).map(({ source, sum, direct, within, rise: [left, right] }) => {
    const name = thingCalled(setup, "source", source);
    const into = thingCalled(setup, "sum", sum);
    const ears = [left, right].map((ear) => (ear === null ? null : changeSaid(ear)));
    const apart = ["left", "right"].flatMap((side, i) => (ears[i] === null ? [] : [`${ears[i]} ${side}`]));
    // Compared as they are said: what differs by rounding only is the same.
    const change = ears[0] !== null && ears[0] === ears[1] ? ears[0] : listed(apart);
    return flag(
      "heard twice",
      "warn",
      { slots: [...direct, ...within].sort((a, b) => a - b), sources: [source], sums: [sum] },
      `${name} comes in twice: by ${slotsSaid(direct)} and inside ${into} (${slotsSaid(within)}). With both up it changes by ${change}.`,
      `Free ${slotsSaid(direct)}, or take ${name} out of ${into}, if it is not meant.`,
      // Those that are off too, or a side would be left over.
      free(slotsOfSource(setup.monitor, source)),
    );
  });

/** The very same thing in two slots. */
export const copyFlags = (setup: Setup): PatchFlag[] =>
  patchedThings(setup).flatMap((thing) => {
    if (thing.folded) return [];
    return repeatsOf(setup, thing).map(({ index, of }) => {
      const [again, first] = [setup.monitor.slots[index] as Slot, setup.monitor.slots[of] as Slot];
      const slots = [Math.min(index, of), Math.max(index, of)];
      // One that is on only repeats what is on as well.
      const louder = again.on
        ? ` With both up it is ${changeSaid(riseOfCopy(again.trim, first.trim))} louder.`
        : ` Slot ${index + 1} is off.`;
      return flag(
        "patched twice",
        "warn",
        about(thing, slots),
        `${thing.name} is patched twice, in ${slotsSaid(slots)}.${louder}`,
        `Free slot ${index + 1}: nothing is lost.`,
        free([index]),
      );
    });
  });

/** Feeds that are silent: of a muted source, or switched off where nothing else brings the same. */
export const silentFlags = (setup: Setup): PatchFlag[] =>
  patchedThings(setup).flatMap((thing) => {
    if (thing.kind === "source" && setup.sources.some((s) => s.id === thing.id && s.muted)) {
      const says = `${thing.name} is muted: ${slotsSaid(thing.slots)} ${thing.slots.length === 1 ? "is" : "are"} silent.`;
      return [flag("muted", "note", about(thing), says, "Unmute it, or free what it takes.")];
    }
    const copies = repeatsOf(setup, thing).map((r) => r.index);
    const off = thing.slots.filter((i) => !setup.monitor.slots[i]?.on && !copies.includes(i));
    if (off.length === 0) return [];
    const fix = off.map((index): Edit => {
      const slot = setup.monitor.slots[index] as Slot;
      return { edit: "slot", index, to: { ...slot, on: true } };
    });
    const says = `${thing.name} in ${slotsSaid(off)} is off: nobody hears it there.`;
    return [flag("off", "warn", about(thing, off), says, "Switch it on, or free the slot.", fix)];
  });

/** Tap points that do not fit the kind of source, with the reason. */
export const tapFlags = (setup: Setup): PatchFlag[] =>
  setup.monitor.slots.flatMap((slot, index) => {
    if (slot?.feed.kind !== "source") return [];
    const { source: id, tap } = slot.feed;
    const source = setup.sources.find((s) => s.id === id);
    if (!source) return [];
    const { better, misfits } = TAP_ADVICE[source.kind];
    const misfit = misfits[tap];
    if (!misfit) return [];
    return [
      flag(
        "tap point",
        misfit.severity,
        { slots: [index], sources: [source.id] },
        `${thingCalled(setup, "source", id)} in slot ${index + 1} is taken ${TAP_NAMES[tap]}: ${misfit.why}.`,
        `Take it ${TAP_NAMES[better]}.`,
        [{ edit: "slot", index, to: { ...slot, feed: { ...slot.feed, tap: better } } }],
      ),
    ];
  });
