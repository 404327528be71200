import "./listen.css";
import { useSignal } from "@preact/signals";
import { useEffect, useLayoutEffect, useRef } from "preact/hooks";
import { FIRST_LEVEL } from "../../listen/output";
import { newPlayer, type Player, type Sounds } from "../../listen/player";
import type { ViewName } from "../../listen/views";
import { Choice, Pick } from "../../ui/choice";
import { Explain } from "../../ui/explain";
import { Fold } from "../../ui/fold";
import { Icon } from "../../ui/icon";
import { attempt } from "../attempt";
import { result } from "../recordings/measuring";
import { heardAs, recommendedPlan, statementOf, viewsOf } from "./heard-as";
import { ListenHelp } from "./help";
import { Caution, LevelSlider } from "./level";
import { chooseMaterial, isReady, isUnreadable, material, materials, prepare, voices } from "./material";

const VIEWS: readonly ViewName[] = ["foh", "now", "repaired"];

/** What one view is like, and what was done for the recommended one. */
const AsHeard = ({ view }: { view: ViewName }) => {
  const as = heardAs.value?.[view];
  const statement = as && statementOf(as);
  if (!statement) return null;
  const done =
    view !== "repaired"
      ? ""
      : recommendedPlan.value
        ? `${recommendedPlan.value.says}. `
        : "Nothing to change. ";
  return (
    <p role="status">
      {done}
      {statement.says}.
    </p>
  );
};

/** Plays what is chosen until it is stopped or left; follows every change while it plays. */
const usePlayer = (view: ViewName) => {
  const player = useRef<Player | null>(null);
  /** Stands for the last tap on Listen or Stop. */
  const asked = useRef({});
  const level = useSignal<number>(FIRST_LEVEL);
  const sounds = useSignal(false);
  const load = sounds.value ? loadNow() : null;
  const stop = (): void => {
    asked.current = {};
    sounds.value = false;
    void player.current?.close();
    player.current = null;
  };
  // Sound follows a tap at once, not after the next frame.
  useLayoutEffect(() => {
    if (!sounds.value) return;
    if (load) player.current?.load(load);
    else stop();
  }, [load?.round, JSON.stringify(load?.views)]);
  useLayoutEffect(() => {
    void player.current?.play(view);
  }, [view]);
  useLayoutEffect(() => stop, []);
  const play = async (): Promise<void> => {
    // A tap that comes before the sound is ready is kept; only the last one, and not once the part is left.
    const mine = {};
    asked.current = mine;
    if (!isReady.peek()) await prepare();
    const first = loadNow();
    if (!first || asked.current !== mine) return;
    const fresh = newPlayer(first);
    fresh.setLevel(level.value);
    player.current = fresh;
    sounds.value = await attempt("No sound could be made", () => fresh.play(view));
    if (!sounds.value) stop();
  };
  const setLevel = (to: number): void => {
    level.value = to;
    player.current?.setLevel(to);
  };
  return {
    sounds: sounds.value,
    level: level.value,
    setLevel,
    toggle: () => (player.current ? stop() : play()),
  };
};

const loadNow = (): Sounds | null => {
  const now = voices.value;
  const views = now && viewsOf(now);
  return now && views && { round: now.round, products: now.products, views };
};

const Deck = () => {
  const view = useSignal<ViewName>("now");
  const deck = usePlayer(view.value);
  useEffect(() => {
    void prepare();
  }, [material.value, result.value]);
  const all = heardAs.value;
  if (!all || material.value === "")
    return (
      <p class="soft">
        Nothing to listen to yet: give a channel its piece under Channels, or measure a recording under
        Headroom.
      </p>
    );
  return (
    <div class="stack deck">
      <Caution />
      <Choice
        label="Heard by"
        value={view.value}
        options={VIEWS.map((name) => [name, all[name].name] as const)}
        onValue={(name) => {
          view.value = name;
        }}
      />
      <AsHeard view={view.value} />
      <Pick label="What plays" value={material.value} options={materials.value} onValue={chooseMaterial} />
      <LevelSlider value={deck.level} onValue={deck.setLevel} />
      <button type="button" class="main" disabled={isUnreadable.value} onClick={() => void deck.toggle()}>
        <span class="row listen">
          <Icon name={deck.sounds ? "hush" : "sound"} />
          {deck.sounds ? "Stop" : "Listen"}
        </span>
      </button>
      {isUnreadable.value ? (
        <p class="notice bad" role="alert">
          The recording cannot be read any more: choose its files again under Headroom.
        </p>
      ) : null}
      <p class="soft small">
        The hits are synthesized, one sound per piece. All three play at the same loudness, so that the louder
        one does not win. L is on the left only if the earpieces are the right way round.
      </p>
      <Explain about="What the level is, and why all play at the same loudness">
        <ListenHelp />
      </Explain>
    </div>
  );
};

/** The same sounds as FOH, the drummer now and the drummer with the recommendation hear them. */
export const Listen = () => <Fold title="Listen to it">{() => <Deck />}</Fold>;
