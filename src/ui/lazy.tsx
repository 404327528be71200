import type { ComponentType } from "preact";
import { useEffect, useLayoutEffect, useState } from "preact/hooks";
import { focusStays } from "./focus-stays";
import { painted } from "./painted";

const waiting: (() => Promise<unknown>)[] = [];

/**
 * Loads every part that was not shown yet: called when the first screen stands, so that later ones open at once.
 * Never rejects: a part that cannot be loaded now says so when it is shown.
 */
export const loadTheRest = async (): Promise<void> => {
  // A part may bring others with it.
  while (waiting.length > 0) await Promise.allSettled(waiting.splice(0).map((load) => load()));
};

/** What a part has come to: itself, or null where it could not be loaded. */
interface Come<P> {
  readonly part: ComponentType<P> | null;
  /** Called once it stands. */
  readonly stands?: () => void;
}

/**
 * A part that is loaded when it is first shown. While it loads a word stands there;
 * if it cannot be loaded, the reason and another try.
 * @param Heading of the reason: "h1" in the place of a screen, where the word is the page's heading too
 */
export const lazy = <P extends object>(
  load: () => Promise<ComponentType<P>>,
  Heading: "h1" | "h2" = "h2",
): ComponentType<P> => {
  let loaded: ComponentType<P> | null = null;
  const get = async (): Promise<ComponentType<P>> => {
    loaded ??= await load();
    return loaded;
  };
  waiting.push(get);
  const Wait = Heading === "h1" ? "h1" : "p";
  return (props: P) => {
    const [come, setCome] = useState<Come<P> | null>(loaded && { part: loaded });
    const ask = (): void => {
      setCome(null);
      painted()
        .then(get)
        .catch(() => null)
        .then((part) => setCome({ part, stands: focusStays() }));
    };
    useEffect(() => {
      if (!come) ask();
    }, []);
    useLayoutEffect(() => come?.stands?.(), [come]);
    if (come === null) return <Wait class="wait">One moment …</Wait>;
    const Part = come.part;
    if (Part) return <Part {...props} />;
    return (
      <div class="notice bad stack" role="alert">
        <Heading>This part of Hatside could not be loaded</Heading>
        <p>Everything you entered is still there.</p>
        <button type="button" onClick={ask}>
          Try again
        </button>
      </div>
    );
  };
};
