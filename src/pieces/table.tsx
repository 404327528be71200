import type { ComponentChildren } from "preact";
import { useEffect, useId, useRef, useState } from "preact/hooks";

/** A table under its caption. Where the page is too narrow it scrolls in itself, by keyboard too. */
export const Table = (props: { caption: ComponentChildren; kind?: string; children: ComponentChildren }) => {
  const box = useRef<HTMLDivElement>(null);
  const [wide, setWide] = useState(false);
  const name = useId();
  useEffect(() => {
    const frame = box.current;
    const table = frame?.firstElementChild;
    if (!frame || !table) return;
    const watch = new ResizeObserver(() => setWide(frame.scrollWidth > frame.clientWidth));
    watch.observe(frame);
    watch.observe(table);
    return () => watch.disconnect();
  }, []);
  return (
    <div
      ref={box}
      class="scroll-x"
      {...(wide ? { tabIndex: 0, role: "group", "aria-labelledby": name } : {})}
    >
      <table class={props.kind}>
        <caption id={name}>{props.caption}</caption>
        {props.children}
      </table>
    </div>
  );
};
