import { computed } from "@preact/signals";
import type { Image } from "../../core/image";
import type { Sum } from "../../core/setup";
import { current, figures } from "../../document/store";
import { chosenListener } from "../state";

/** The image of the chosen listener. */
export const chosenImage = computed<Image | undefined>(() =>
  figures.value.images.find((i) => i.listener === chosenListener.value?.id),
);

/** The sum that the chosen listener hears; none for the audience. */
export const heardSum = computed<Sum | undefined>(() =>
  chosenImage.value?.hears === "sum"
    ? current.value.sums.find((s) => s.id === chosenListener.value?.sum)
    : undefined,
);
