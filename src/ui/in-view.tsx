import type { ComponentChildren } from "preact";
import { useLayoutEffect, useRef, useState } from "preact/hooks";

/** Drawn so far before it comes into view: a whole screen, so that the keyboard finds it there too. */
const MARGIN = "100% 0px";

/**
 * A part of a long list: drawn once it is scrolled near, and from then on; until then as much room as it is about to
 * take.
 * @param height that room, px
 * @param now draws it at once, wherever it is
 */
export const InView = (props: { height: number; now?: boolean; children: () => ComponentChildren }) => {
  const room = useRef<HTMLDivElement>(null);
  const [isNear, setNear] = useState(props.now ?? false);
  useLayoutEffect(() => {
    const it = room.current;
    if (!it) return;
    const watch = new IntersectionObserver(
      (entries) => {
        if (entries.some((entry) => entry.isIntersecting)) setNear(true);
      },
      { rootMargin: MARGIN },
    );
    watch.observe(it);
    return () => watch.disconnect();
  }, []);
  return isNear ? props.children() : <div ref={room} style={{ height: `${props.height}px` }} />;
};
