import { computed } from "@preact/signals";
import { called } from "../../core/called";
import { earGains, sumOf } from "../../core/ears";
import { imagesOf } from "../../core/image";
import { applyRepair, repairsFor } from "../../core/repair/repairs";
import { situationOf } from "../../core/repair/situation";
import type { Listener, Setup } from "../../core/setup";
import { imageStatement, type Statement } from "../../core/statements";
import { sentence } from "../../core/words";
import { current } from "../../document/store";
import { gainsOf, type ViewGains, type ViewName, type Views } from "../../listen/views";
import { chosenListener } from "../state";
import type { Voices } from "./material";

/** One of the three: whose ears, in which setup. */
interface HeardAs {
  readonly setup: Setup;
  readonly listener: Listener;
  readonly name: string;
}

/** Who is listened as beside the house: the chosen listener, else the drummer. */
const wearer = computed<Listener | undefined>(() => {
  const isBand = (l: Listener | undefined): boolean => l !== undefined && l.kind !== "audience";
  const { listeners } = current.value;
  return isBand(chosenListener.value)
    ? chosenListener.value
    : (listeners.find((l) => l.kind === "drummer") ?? listeners.find(isBand));
});

/** The best repair of the sum that the listener hears; null where there is none to do. */
export const repair = computed(() => {
  const sum = wearer.value && sumOf(current.value, wearer.value);
  if (!sum) return null;
  const { ranked, advice } = repairsFor(situationOf(current.value, sum));
  const [best] = ranked;
  return best && best.steps.length > 0 ? { says: advice.headline, it: best } : null;
});

/** The three views; null where the setup has no audience or nobody else. */
export const heardAs = computed<{ readonly [name in ViewName]: HeardAs } | null>(() => {
  const setup = current.value;
  const audience = setup.listeners.find((l) => l.kind === "audience");
  const listener = wearer.value;
  if (!audience || !listener) return null;
  const who = sentence(called(listener));
  const repaired = repair.value ? applyRepair(setup, repair.value.it) : setup;
  return {
    house: { setup, listener: audience, name: "The house" },
    now: { setup, listener, name: `${who} now` },
    repaired: {
      setup: repaired,
      // A repair may give the listener a flip or a pair of their own.
      listener: repaired.listeners.find((l) => l.id === listener.id) ?? listener,
      name: `${who} after the repair`,
    },
  };
});

/** What a view is like, in one line. */
export const statementOf = ({ setup, listener }: HeardAs): Statement | null => {
  const image = imagesOf(setup, [listener])[0];
  return image ? imageStatement(setup, listener, image) : null;
};

const gainsAs = ({ setup, listener }: HeardAs, { places, recorded }: Voices): ViewGains => {
  if (recorded) {
    const gains = earGains(setup, listener);
    return places.map(({ source, channel }) => gains.get(source)?.[channel] ?? [0, 0]);
  }
  const [image] = imagesOf(setup, [listener]);
  return image
    ? gainsOf(
        image,
        places.map((p) => p.source),
      )
    : [];
};

/** Gains of every voice in the three views. */
export const viewsOf = (voices: Voices): Views | null => {
  const all = heardAs.value;
  return (
    all && {
      house: gainsAs(all.house, voices),
      now: gainsAs(all.now, voices),
      repaired: gainsAs(all.repaired, voices),
    }
  );
};
