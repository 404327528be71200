import { computed } from "@preact/signals";
import { busOf, earGains } from "../../core/mix/ear-gains";
import { hearsFoh, sitsAtKit } from "../../core/model/kinds";
import type { Listener, Setup } from "../../core/model/setup";
import { applyRecommendation } from "../../core/recommend/steps";
import { imagesOf } from "../../core/stereo/image";
import { current } from "../../document/store";
import { gainsOf, type ViewGains, type ViewName, type Views } from "../../listen/views";
import { describeImage } from "../../text/image";
import { listenerName } from "../../text/names";
import type { Statement } from "../../text/statement";
import { capitalised } from "../../text/words";
import { recommendedFor } from "../recommended";
import { chosenListener } from "../state";
import type { Voices } from "./material";

/** One of the three: whose ears, in which setup. */
interface HeardAs {
  readonly setup: Setup;
  readonly listener: Listener;
  readonly name: string;
}

/** Who is listened as beside FOH: the chosen listener, else the drummer. */
const wearer = computed<Listener | undefined>(() => {
  const isBand = (l: Listener | undefined): boolean => l !== undefined && !hearsFoh(l);
  const { listeners } = current.value;
  return isBand(chosenListener.value)
    ? chosenListener.value
    : (listeners.find((l) => sitsAtKit(l)) ?? listeners.find(isBand));
});

/** The recommendation for the bus that the listener hears; null where there is nothing to do, or nothing is worked out. */
export const recommendedPlan = computed(() => {
  const bus = wearer.value && busOf(current.value, wearer.value);
  if (!bus) return null;
  const found = recommendedFor(current.value, bus);
  const [best] = found?.ranked ?? [];
  return found && best && best.steps.length > 0 ? { says: found.advice.headline, it: best } : null;
});

/** The three views; null where the setup has no audience or nobody else. */
export const heardAs = computed<{ readonly [name in ViewName]: HeardAs } | null>(() => {
  const setup = current.value;
  const audience = setup.listeners.find((l) => hearsFoh(l));
  const listener = wearer.value;
  if (!audience || !listener) return null;
  const who = capitalised(listenerName(listener));
  const repaired = recommendedPlan.value ? applyRecommendation(setup, recommendedPlan.value.it) : setup;
  return {
    foh: { setup, listener: audience, name: "FOH" },
    now: { setup, listener, name: `${who} now` },
    repaired: {
      setup: repaired,
      // It may give the listener a flip or a bus of their own.
      listener: repaired.listeners.find((l) => l.id === listener.id) ?? listener,
      name: `${who} with the recommendation`,
    },
  };
});

/** What a view is like, in one line. */
export const statementOf = ({ setup, listener }: HeardAs): Statement | null => {
  const image = imagesOf(setup, [listener])[0];
  return image ? describeImage(setup, listener, image) : null;
};

const gainsAs = ({ setup, listener }: HeardAs, { places, recorded }: Voices): ViewGains => {
  if (recorded) {
    const gains = earGains(setup, listener);
    return places.map(({ channel, line }) => gains.get(channel)?.[line] ?? [0, 0]);
  }
  const [image] = imagesOf(setup, [listener]);
  return image
    ? gainsOf(
        image,
        places.map((p) => p.channel),
      )
    : [];
};

/** Gains of every voice in the three views. */
export const viewsOf = (voices: Voices): Views | null => {
  const all = heardAs.value;
  return (
    all && {
      foh: gainsAs(all.foh, voices),
      now: gainsAs(all.now, voices),
      repaired: gainsAs(all.repaired, voices),
    }
  );
};
