import { computed, type ReadonlySignal } from "@preact/signals";
import { type PatchFigures, patchFigures } from "../core/inputs/figures";
import { current } from "../document/store";

/** Everything about the monitor inputs of the open setup; apart from the other figures, which the first screen shows. */
export const patchNow: ReadonlySignal<PatchFigures> = computed(() => patchFigures(current.value));
