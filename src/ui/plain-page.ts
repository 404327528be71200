/** A way on: where it leads, and what it says. */
interface WayOn {
  readonly href: string;
  readonly says: string;
}

/** Fills the app's place with a heading, paragraphs and a way on. Not by preact, which may be what failed. */
export const showPlainPage = (heading: string, paragraphs: readonly string[], way?: WayOn): void => {
  const page = document.createElement("main");
  page.className = "body stack";
  const add = (tag: "h1" | "p", content: string | Node): void => {
    page.appendChild(document.createElement(tag)).append(content);
  };
  add("h1", heading);
  for (const text of paragraphs) add("p", text);
  if (way) {
    const link = document.createElement("a");
    Object.assign(link, { className: "press", href: way.href, textContent: way.says, target: "_blank" });
    add("p", link);
  }
  document.getElementById("app")?.replaceChildren(page);
};
