import "./helper.css";
import type { ComponentType } from "preact";
import { canUndo, current, undo } from "../../document/store";
import { Icon, type IconName } from "../../ui/icon";
import { lazy } from "../../ui/lazy";
import { setupName } from "../shown-names";
import { type Place, place } from "../state";
import { Toast } from "../toast";

const PLACES: readonly (readonly [place: Place, name: string, icon: IconName])[] = [
  ["check", "Line check", "fine"],
  ["trace", "Trace", "check"],
  ["desk", "Desk list", "headroom"],
  ["patch", "Send ticks", "up"],
];

const LinesToTick = lazy(async () => (await import("../check/line-check")).LinesToTick, "h1");

const SCREENS: { readonly [at in Place]?: ComponentType } = {
  trace: lazy(async () => (await import("../trace/trace")).TraceScreen, "h1"),
  desk: lazy(async () => (await import("../desk/desk")).DeskTicks, "h1"),
  patch: lazy(async () => (await import("./send-ticks")).SendTicks, "h1"),
  setups: lazy(async () => (await import("../setups/setups")).SetupsScreen, "h1"),
};

/** The whole app on a helper’s phone, as long as what was handed over is open: large type, ticks, nothing to edit. */
export const HelperView = ({ notices: Notices }: { notices: ComponentType }) => {
  const Screen = SCREENS[place.value] ?? LinesToTick;
  return (
    <div class="shell helper">
      <header class="head">
        <p class="grow name">
          <span>{setupName(current.value)}</span>
          <span class="soft small">Helper</span>
        </p>
        <button
          type="button"
          class="bare"
          aria-label={canUndo.value ? `Undo: ${canUndo.value}` : "Undo"}
          disabled={canUndo.value === null}
          onClick={undo}
        >
          <Icon name="undo" />
        </button>
        <a class="bare" href="#setups" aria-label="Setups and settings">
          <Icon name="more" />
        </a>
      </header>
      <main class="body" id="screen" tabIndex={-1}>
        <Notices />
        <Screen key={place.value} />
      </main>
      <nav class="nav" aria-label="Places">
        <ul>
          {PLACES.map(([at, name, icon]) => (
            <li key={at}>
              <a href={`#${at}`} aria-current={SCREENS[place.value] === SCREENS[at] ? "page" : undefined}>
                <Icon name={icon} />
                {name}
              </a>
            </li>
          ))}
        </ul>
      </nav>
      <Toast />
    </div>
  );
};
