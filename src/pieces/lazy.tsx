import type { ComponentType } from "preact";
import { useEffect, useState } from "preact/hooks";

/**
 * A part that is loaded when it is first shown. While it loads a word stands there;
 * if it cannot be loaded, the reason and another try.
 */
export const lazy = <P extends object>(load: () => Promise<ComponentType<P>>): ComponentType<P> => {
  let loaded: ComponentType<P> | null = null;
  return (props: P) => {
    const [part, setPart] = useState<{ readonly it: ComponentType<P> } | null>(loaded && { it: loaded });
    const [failed, setFailed] = useState(false);
    const [tries, setTries] = useState(0);
    // biome-ignore lint/correctness/useExhaustiveDependencies: every try loads once
    useEffect(() => {
      if (part) return;
      setFailed(false);
      load().then(
        (it) => {
          loaded = it;
          setPart({ it });
        },
        () => setFailed(true),
      );
    }, [tries]);
    if (part) {
      const Part = part.it;
      return <Part {...props} />;
    }
    if (!failed) return <p class="soft">One moment …</p>;
    return (
      <div class="notice bad" role="alert">
        <p>This part of Hatside could not be loaded. Everything you entered is still there.</p>
        <button type="button" onClick={() => setTries(tries + 1)}>
          Try again
        </button>
      </div>
    );
  };
};
