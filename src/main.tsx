import { render } from "preact";
import { allowOwnScripts } from "./offline/own-scripts";
import { startOffline } from "./offline/update";

allowOwnScripts();

const root = document.getElementById("app");
const show = (accept: (() => void) | null, ready: boolean): void => {
  if (!root) return;
  render(
    <main>
      <h1>Hatside</h1>
      <p>{ready ? "Ready to work offline" : ""}</p>
      {accept ? (
        <button type="button" onClick={accept}>
          Use the new version
        </button>
      ) : null}
    </main>,
    root,
  );
};

show(null, false);
if (import.meta.env.PROD)
  startOffline({
    ready: () => show(null, true),
    waiting: (accept) => show(accept, true),
    failed: console.error,
  });
