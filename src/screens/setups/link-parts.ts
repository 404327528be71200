import { joined, type LinkPart } from "../../shelf/link-parts";

const KEY = "hatside-link-parts";
/** Of so many links parts are kept: a scan that was given up does not lie there for good. */
const LINKS = 3;

/** Parts that have come so far, of the link that came last first. */
const kept = (): readonly LinkPart[] => {
  try {
    const all: unknown = JSON.parse(localStorage.getItem(KEY) ?? "[]");
    return Array.isArray(all) ? all.filter(isPart) : [];
  } catch {
    // The browser lets this page keep nothing, or something else wrote there.
    return [];
  }
};

const isPart = (value: unknown): value is LinkPart => {
  const { at, of, whole, data } = (value ?? {}) as Partial<LinkPart>;
  return (
    Number.isInteger(at) && Number.isInteger(of) && typeof whole === "string" && typeof data === "string"
  );
};

const keep = (parts: readonly LinkPart[]): void => {
  try {
    localStorage.setItem(KEY, JSON.stringify(parts));
  } catch {
    // Then the codes can only be read one after the other in this tab.
  }
};

let here: readonly LinkPart[] | null = null;

/** The parts of one link that have come, or the link itself once the last is there. */
export type Collected = { readonly link: string } | { readonly have: readonly number[]; readonly of: number };

/** Takes one more part of a link, as codes are read one after the other, each of them perhaps in a tab of its own. */
export const collect = (part: LinkPart): Collected => {
  const all = [part, ...kept(), ...(here ?? [])];
  const links = [...new Set(all.map((p) => p.whole))].slice(0, LINKS);
  const once = new Map(all.map((p) => [`${p.whole} ${p.at}`, p]));
  here = [...once.values()].filter((p) => links.includes(p.whole));
  const mine = here.filter((p) => p.whole === part.whole && p.of === part.of);
  const link = joined(mine);
  if (link !== null) here = here.filter((p) => p.whole !== part.whole);
  keep(here);
  return link === null ? { have: mine.map((p) => p.at).sort((a, b) => a - b), of: part.of } : { link };
};
