import { signal } from "@preact/signals";
import { carriesSetup } from "../shelf/carries";
import { PLACES, type Place, place, toast } from "./state";

/** Places by the addresses they had in the first edition, so that a kept link still leads there. */
const FORMER: { readonly [hash: string]: Place | undefined } = { "#kit": "channels", "#sum": "headroom" };

/** The part of the address that carries a setup from someone else, unread; "" while there is none. */
export const receivedLink = signal("");

/** Where an address leads: one that carries a setup to where setups are taken in, one that names no place to the kit. */
const placeOf = (hash: string): Place =>
  carriesSetup(hash) ? "setups" : (FORMER[hash] ?? PLACES.find((p) => `#${p}` === hash) ?? "channels");

const arrive = (to: Place): void => {
  place.value = to;
  toast.value = null;
  scrollTo(0, 0);
};

/** Keeps the place in the address, so that back, forward, reload and links work; anything unknown leads to the kit. */
export const followAddress = (): void => {
  const follow = () => {
    const to = placeOf(location.hash);
    receivedLink.value = carriesSetup(location.hash) ? location.hash : "";
    if (to !== place.value) arrive(to);
  };
  addEventListener("hashchange", follow);
  follow();
};

/** Goes to a place at once: what is said from now on is said there. */
export const goTo = (to: Place): void => {
  location.hash = to;
  arrive(to);
};

/** Goes to a place in the stead of this one: the way back does not lead to a link that was dealt with. */
export const replacePlace = (to: Place): void => {
  history.replaceState(null, "", `#${to}`);
  receivedLink.value = "";
  arrive(to);
};
