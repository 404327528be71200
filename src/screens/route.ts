import { type Place, place, toast } from "./state";

const PLACES: readonly Place[] = ["kit", "image", "sum", "patch", "check", "setups", "about"];

const placeOf = (hash: string): Place | undefined => PLACES.find((p) => `#${p}` === hash);

/** Keeps the place in the address, so that back, forward, reload and links work; anything unknown leads to the kit. */
export const followAddress = (): void => {
  const follow = () => {
    const to = placeOf(location.hash);
    if (to === undefined || to === place.value) return;
    place.value = to;
    toast.value = null;
    scrollTo(0, 0);
  };
  addEventListener("hashchange", follow);
  place.value = placeOf(location.hash) ?? "kit";
};
