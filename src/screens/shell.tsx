import type { ComponentType } from "preact";
import { canRedo, canUndo, current, redo, undo } from "../document/store";
import { Icon, type IconName } from "../ui/icon";
import { lazy } from "../ui/lazy";
import { setupName } from "./shown-names";
import { type Place, place } from "./state";
import { Toast } from "./toast";

const AT_THUMB: readonly (readonly [place: Place, name: string, icon: IconName])[] = [
  ["channels", "Channels", "channels"],
  ["image", "Image", "image"],
  ["headroom", "Headroom", "headroom"],
  ["patch", "Patch", "patch"],
  ["check", "Check", "check"],
];

const Head = () => (
  <header class="head">
    <button
      type="button"
      class="bare name"
      onClick={() => {
        location.hash = place.value === "setups" ? "channels" : "setups";
      }}
    >
      <span>
        <span class="hidden-visually">Setups, open now: </span>
        {setupName(current.value)}
      </span>
      {current.value.example ? <span class="soft small">Example, invented data</span> : null}
    </button>
    <button
      type="button"
      class="bare"
      aria-label={canUndo.value ? `Undo: ${canUndo.value}` : "Undo"}
      disabled={canUndo.value === null}
      onClick={undo}
    >
      <Icon name="undo" />
    </button>
    <button
      type="button"
      class="bare"
      aria-label={canRedo.value ? `Redo: ${canRedo.value}` : "Redo"}
      disabled={canRedo.value === null}
      onClick={redo}
    >
      <Icon name="redo" />
    </button>
    <button
      type="button"
      class="bare"
      aria-label="Setups and settings"
      onClick={() => {
        location.hash = "setups";
      }}
    >
      <Icon name="more" />
    </button>
  </header>
);

const Nav = () => (
  <nav class="nav" aria-label="Places">
    <ul>
      {AT_THUMB.map(([at, name, icon]) => (
        <li key={at}>
          <a href={`#${at}`} aria-current={place.value === at ? "page" : undefined}>
            <Icon name={icon} />
            {name}
          </a>
        </li>
      ))}
    </ul>
  </nav>
);

const HelperView = lazy(async () => (await import("./helper/helper")).HelperView, "h1");

/** The frame round every screen: setup's name, undo and redo, the places at the thumb. */
export const Shell = (props: {
  screens: { readonly [place in Place]: ComponentType };
  notices: ComponentType;
}) => {
  const Screen = props.screens[place.value];
  const Notices = props.notices;
  if (current.value.handed) return <HelperView notices={Notices} />;
  return (
    <div class="shell">
      <Head />
      <main class="body" id="screen" tabIndex={-1}>
        <Notices />
        <Screen key={place.value} />
      </main>
      <Nav />
      <Toast />
    </div>
  );
};
