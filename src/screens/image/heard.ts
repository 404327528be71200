import { computed } from "@preact/signals";
import type { Lookup } from "../../core/lib/memo";
import type { Bus } from "../../core/model/setup";
import { type Image, listenerImages } from "../../core/stereo/image";
import { current, figures } from "../../document/store";
import { chosenListener } from "../state";

let before: Lookup<Image> | undefined;

/** What each listener gets, computed when somebody looks; of what did not change, as before. */
export const images = computed<Lookup<Image>>(() => {
  before = listenerImages(current.value, figures.value.mixed, before);
  return before;
});

/** The image of the chosen listener. */
export const chosenImage = computed<Image | undefined>(() =>
  images.value.get(chosenListener.value?.id ?? ""),
);

/** The bus that the chosen listener hears; none for the audience. */
export const heardBus = computed<Bus | undefined>(() =>
  chosenImage.value?.hears === "bus"
    ? current.value.buses.find((s) => s.id === chosenListener.value?.bus)
    : undefined,
);
