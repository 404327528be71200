import { computed } from "@preact/signals";
import type { Bus } from "../../core/model/setup";
import type { Image } from "../../core/stereo/image";
import { current, figures } from "../../document/store";
import { chosenListener } from "../state";

/** The image of the chosen listener. */
export const chosenImage = computed<Image | undefined>(() =>
  figures.value.images.find((i) => i.listener === chosenListener.value?.id),
);

/** The bus that the chosen listener hears; none for the audience. */
export const heardBus = computed<Bus | undefined>(() =>
  chosenImage.value?.hears === "bus"
    ? current.value.buses.find((s) => s.id === chosenListener.value?.bus)
    : undefined,
);
