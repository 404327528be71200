import { type ComponentChildren, render } from "preact";
import { useLayoutEffect } from "preact/hooks";
import { toast } from "../state";

/** Prints; some browsers of phones have no printing at all. */
export const print = (): void => {
  if (typeof globalThis.print === "function") globalThis.print();
  else
    toast.value = {
      says: "This browser cannot print. Export the CSV, or print from another browser.",
      undo: false,
    };
};

/** Puts pages beside the app as long as the part that asks is open, so that printing prints them and nothing else. */
export const usePaper = (pages: () => ComponentChildren): void => {
  // Not after the next frame: who prints at once would get the screen.
  useLayoutEffect(() => {
    const paper = document.createElement("div");
    paper.className = "paper";
    document.body.append(paper);
    const draw = () => render(pages(), paper);
    draw();
    addEventListener("beforeprint", draw);
    return () => {
      removeEventListener("beforeprint", draw);
      render(null, paper);
      paper.remove();
    };
  }, []);
};
