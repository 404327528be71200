import type { Image } from "../../core/image";
import { counted, listed } from "../../core/patch/words";
import type { Listener } from "../../core/setup";
import type { Tone } from "../../pieces/verdict";
import { sourceName } from "../names";

/** What is to be said of one listener's image: the one line, and a second where there is more to know. */
export interface Statement {
  readonly tone: Tone;
  readonly says: string;
  readonly more: string;
}

const namesOf = (image: Image, what: (row: Image["rows"][number]) => boolean): string =>
  listed(image.rows.filter(what).map((r) => sourceName(r.source)));

const extra = (image: Image): string => {
  const said: string[] = [];
  if (image.sidesLost > 0)
    said.push(`${namesOf(image, (r) => r.sidesLost)} must keep its sides and has lost them.`);
  if (image.count.flat > 0) said.push(`Flat: ${namesOf(image, (r) => r.agreement === "flat")}.`);
  if (image.count.unplaceable > 0) said.push(`${counted(image.count.unplaceable, "source")} without a side.`);
  return said.join(" ");
};

/** One line on who hears it right, true and useful in every case. */
export const statementOf = (image: Image, listener: Pick<Listener, "name">): Statement => {
  const who = listener.name || "this listener";
  const { wrong, right, flat } = image.count;
  const placed = wrong + right + flat;
  const more = extra(image);
  const say = (tone: Tone, says: string, then = more): Statement => ({ tone, says, more: then });
  if (image.hears === "nothing")
    return say("care", `${who} hears no sum`, "Choose one under “Who hears what”.");
  if (image.rows.length === 0) return say("care", `Nothing sounds for ${who}`, "Send a source in under Kit.");
  if (image.sideOn)
    return say(
      "care",
      `${who} stands side-on to the kit`,
      "From there it has no left and right, only nearer and farther: no side can be wrong.",
    );
  if (placed === 0)
    return say("care", `No source has a place at the kit`, "Say under Kit where each source stands.");
  if (wrong > 0) {
    const [only] = image.rows.filter((r) => r.agreement === "wrong");
    if (placed === 1 && only)
      return say("wrong", `${sourceName(only.source)} is on the wrong side for ${who}`);
    const reversed = wrong > right + flat;
    return say(
      "wrong",
      `${reversed ? "Reversed" : "Mixed up"} for ${who}: ${wrong} of ${placed} on the wrong side`,
    );
  }
  if (image.rows.every((r) => r.heard === "middle" || r.heard === null))
    return say("care", `Everything is in the middle for ${who}`);
  if (flat > 0) return say("care", `No side is wrong for ${who}, but ${counted(flat, "source")} flat`);
  return say("fine", `Right for ${who}: ${placed === 1 ? "its one source agrees" : `all ${placed} agree`}`);
};
