import { readdirSync, readFileSync } from "node:fs";
import { join, posix, resolve } from "node:path";
import { parseSync } from "vite";
import { describe, expect, it } from "vitest";

const ROOT = resolve(import.meta.dirname, "..");

/** What each room may import besides itself: rooms by path under src, packages by name. */
const ARROWS: { readonly [room: string]: readonly string[] } = {
  core: [],
  text: ["core"],
  document: ["core", "@preact/signals-core"],
  shelf: ["core", "document", "@preact/signals-core", "uqr"],
  "shelf/worker": ["core", "document", "shelf"],
  measure: ["core"],
  "measure/simd": [],
  "measure/worker": ["core", "measure"],
  listen: ["core"],
  pieces: ["core", "preact", "preact/hooks", "@preact/signals"],
  screens: [
    "core",
    "text",
    "document",
    "shelf",
    "measure",
    "listen",
    "pieces",
    "preact",
    "preact/hooks",
    "@preact/signals",
  ],
  offline: [],
  "offline/worker": ["offline"],
  "": [
    "core",
    "text",
    "document",
    "shelf",
    "measure",
    "listen",
    "pieces",
    "screens",
    "offline",
    "preact",
    "@preact/signals",
  ],
};
/** Rooms within a room that only it may use: workers, which it starts, and what is compiled for it. */
const INNER = ["shelf/worker", "measure/simd", "measure/worker", "offline/worker"];

const LONGEST = { core: 150, others: 250 };
/** Files that may be longer, and why. */
const LONGER: { readonly [file: string]: number } = {
  // The whole shape of a setup is read as one page.
  "core/setup.ts": 250,
};

interface Node {
  readonly type: string;
  readonly start: number;
  readonly end: number;
  readonly [key: string]: unknown;
}
interface Parsed {
  readonly file: string;
  readonly text: string;
  readonly body: readonly Node[];
  readonly nodes: readonly Node[];
  readonly comments: readonly { readonly type: string; readonly value: string; readonly end: number }[];
}

const isNode = (value: unknown): value is Node =>
  typeof value === "object" && value !== null && typeof (value as Node).type === "string";

const descend = (node: Node, into: Node[]): Node[] => {
  into.push(node);
  for (const value of Object.values(node))
    for (const child of Array.isArray(value) ? value : [value]) if (isNode(child)) descend(child, into);
  return into;
};

const parse = (file: string, text: string): Parsed => {
  const { program, comments, errors } = parseSync(file, text);
  expect(errors, file).toEqual([]);
  const root = program as unknown as Node & { body: Node[] };
  return { file, text, body: root.body, nodes: descend(root, []), comments };
};

const channels: readonly Parsed[] = readdirSync(join(ROOT, "src"), { recursive: true, encoding: "utf8" })
  .filter((file) => /\.tsx?$/.test(file))
  .map((file) => parse(file, readFileSync(join(ROOT, "src", file), "utf8")));

const roomOf = (file: string): string => {
  const rooms = Object.keys(ARROWS).filter((room) => room !== "" && file.startsWith(`${room}/`));
  return rooms.sort((a, b) => b.length - a.length)[0] ?? "";
};

const literal = (node: unknown): string[] =>
  isNode(node) && node.type === "Literal" && typeof node.value === "string" ? [node.value] : [];

/** Every module that a file names: imports, types, on demand, and workers by `new URL`. */
const named = ({ nodes }: Parsed): string[] =>
  nodes.flatMap((node) => {
    if (node.type === "NewExpression" && (node.callee as Node).name === "URL") {
      const [first, second] = node.arguments as Node[];
      return second?.type === "MemberExpression" ? literal(first) : [];
    }
    return /^(Import|Export|TSImportType)/.test(node.type) ? literal(node.source) : [];
  });

const arrows = (parsed: Parsed): string[] => {
  const room = roomOf(parsed.file);
  const allowed = ARROWS[room] ?? [];
  return named(parsed).filter((name) => {
    if (!name.startsWith(".")) return !allowed.includes(name);
    const target = roomOf(posix.join(posix.dirname(parsed.file), name));
    const ownInner = INNER.includes(target) && posix.dirname(target) === room;
    return target !== room && !ownInner && !allowed.includes(target);
  });
};

/** `console` is also a word of the trade, so only its printing counts. */
const AMBIENT = /^(Math\.random|console\.(log|info|warn|error|debug|trace|table|time))$/;

const impure = ({ text, nodes, body }: Parsed): string[] => {
  const ambient = nodes.flatMap((node) => {
    if (node.type === "Identifier" && node.name === "Date") return ["Date"];
    const member = node.type === "MemberExpression" ? text.slice(node.start, node.end) : "";
    return AMBIENT.test(member) ? [member] : [];
  });
  const state = body.flatMap((node) => {
    const inner = node.type === "ExportNamedDeclaration" ? (node.declaration as Node | null) : node;
    if (inner?.type !== "VariableDeclaration") return [];
    if (inner.kind !== "const") return ["state of the module"];
    const empty = (inner.declarations as Node[]).filter(({ init }) => {
      const made = init as Node | null;
      const list = made?.type === "ArrayExpression" && (made.elements as Node[]).length === 0;
      const map = made?.type === "NewExpression" && (made.arguments as Node[]).length === 0;
      return list || map;
    });
    return empty.map(() => "state of the module");
  });
  return [...ambient, ...state];
};

const tooLong = ({ file, text }: Parsed): string[] => {
  const lines = text.trimEnd().split("\n").length;
  const most = LONGER[file] ?? (roomOf(file) === "core" ? LONGEST.core : LONGEST.others);
  return lines > most ? [`${lines} lines of ${most}`] : [];
};

const undocumented = ({ text, body, comments }: Parsed): string[] =>
  body
    .filter((node) => node.type === "ExportNamedDeclaration" && isNode(node.declaration))
    .filter(
      (node) =>
        !comments.some(
          (comment) =>
            comment.type === "Block" &&
            comment.value.startsWith("*") &&
            text.slice(comment.end, node.start).trim() === "" &&
            comment.end <= node.start,
        ),
    )
    .map((node) => text.slice(node.start, node.end).split("\n")[0] ?? "");

const exportsOf = ({ body }: Parsed): string[] =>
  body
    .filter(
      (node) =>
        node.type === "ExportDefaultDeclaration" ||
        node.type === "ExportAllDeclaration" ||
        (node.type === "ExportNamedDeclaration" && node.source !== null),
    )
    .map((node) => node.type);

const loose = ({ nodes, text }: Parsed): string[] => [
  ...nodes.filter((node) => node.type === "TSAnyKeyword").map(() => "any"),
  ...(text.match(/\b(TODO|FIXME|XXX|HACK)\b|@ts-\w+/g) ?? []),
];

/** Every way of a script to ask a server for something, or to tell it something. */
const TALK =
  /^(fetch|fetchLater|sendBeacon|XMLHttpRequest|WebSocket|WebSocketStream|WebTransport|EventSource|RTCPeerConnection)$/;
/** The only file that asks: for what the copy on the device lacks. */
const ASKS = "offline/worker/sw.ts";

const talk = ({ file, nodes }: Parsed): string[] => {
  // A file may have something of its own by such a name.
  const own = nodes.flatMap(({ type, id }) => (type === "VariableDeclarator" ? [(id as Node).name] : []));
  return nodes
    .filter(({ type, name }) => type === "Identifier" && TALK.test(String(name)) && !own.includes(name))
    .map(({ name }) => String(name))
    .filter((name) => !(file === ASKS && name === "fetch"));
};

/** What may be shown: strings, templates and text between tags; comments and names are not. */
const shownTexts = ({ nodes }: Parsed): string[] =>
  nodes.flatMap((node) => {
    if (node.type === "TemplateElement") return [(node.value as { raw: string }).raw];
    return node.type === "JSXText" ? [String(node.value)] : literal(node);
  });

const straight = (parsed: Parsed): string[] =>
  shownTexts(parsed).filter((text) => /(\p{L}|^)'\p{L}/u.test(text));

/** Each rule, whom it binds, and code that it must refuse. */
const RULES: readonly {
  readonly says: string;
  readonly faults: (parsed: Parsed) => string[];
  readonly binds?: (file: string) => boolean;
  readonly refuses: readonly (readonly [file: string, code: string])[];
}[] = [
  {
    says: "imports follow the arrows",
    faults: arrows,
    refuses: [
      ["core/x.ts", 'import { a } from "../document/schema";'],
      ["core/x.ts", 'import type { A } from "../document/schema";'],
      ["core/x.ts", 'import { signal } from "@preact/signals-core";'],
      ["core/x.ts", 'const a = () => import("../shelf/db");'],
      ["core/x.ts", 'type A = import("../shelf/db").A;'],
      ["core/x.ts", 'export { a } from "../main";'],
      ["document/x.ts", 'import { signal } from "@preact/signals";'],
      ["document/x.ts", 'import "../shelf/db";'],
      ["listen/x.ts", 'import "../measure/client";'],
      ["pieces/x.tsx", 'import "../screens/state";'],
      ["pieces/x.tsx", 'import "../document/store";'],
      ["screens/kit/x.tsx", 'import "../../offline/update";'],
      ["screens/x.tsx", 'import "../shelf/worker/worker";'],
      ["screens/x.tsx", 'import "../measure/worker/read";'],
      ["screens/x.tsx", 'const w = new URL("../measure/worker/read.ts", import.meta.url);'],
      ["offline/x.ts", 'import "../core/setup";'],
      ["main.tsx", 'import "./offline/worker/sw";'],
      ["main.tsx", 'import "workbox-window";'],
    ],
  },
  {
    says: "core has no clock, chance, console or state",
    faults: impure,
    binds: (file) => roomOf(file) === "core",
    refuses: [
      ["core/x.ts", "const a = () => Date.now();"],
      ["core/x.ts", "const a = () => Math.random();"],
      ["core/x.ts", "const a = () => console.log(1);"],
      ["core/x.ts", "let a = 1;"],
      ["core/x.ts", "export let a = 1;"],
      ["core/x.ts", "const a = new Map<string, number>();"],
      ["core/x.ts", "const a: number[] = [];"],
    ],
  },
  {
    says: "files are short",
    faults: tooLong,
    refuses: [
      ["core/x.ts", "\n".repeat(LONGEST.core).concat("f();")],
      ["screens/x.tsx", "\n".repeat(LONGEST.others).concat("f();")],
    ],
  },
  {
    says: "every export says what it is",
    faults: undocumented,
    refuses: [
      ["core/x.ts", "export const a = 1;"],
      ["core/x.ts", "// no docstring\nexport const a = 1;"],
      ["core/x.ts", "/** of b */\nconst b = 1;\nexport type A = typeof b;"],
    ],
  },
  {
    says: "exports are named and stand where they are made",
    faults: exportsOf,
    refuses: [
      ["core/x.ts", "export default 1;"],
      ["core/x.ts", 'export * from "./y";'],
      ["core/x.ts", 'export { a } from "./y";'],
    ],
  },
  {
    says: "nothing is loose or left for later",
    faults: loose,
    refuses: [
      ["core/x.ts", "const a = (b: any) => b;"],
      ["core/x.ts", `// ${"TO"}DO`],
      ["core/x.ts", `// @${"ts"}-ignore\nf();`],
    ],
  },
  {
    says: "no server is asked, but for the app’s own files by the worker that keeps them",
    faults: talk,
    refuses: [
      ["screens/x.tsx", 'const a = () => fetch("a.json");'],
      ["measure/worker/x.ts", 'const a = () => self.fetch("a.json");'],
      ["offline/update.ts", "const ask = fetch;"],
      [ASKS, 'navigator.sendBeacon("a");'],
      [ASKS, "new XMLHttpRequest();"],
      ["shelf/x.ts", 'new WebSocket("a");'],
      ["shelf/x.ts", 'new EventSource("a");'],
      ["shelf/x.ts", "new RTCPeerConnection();"],
      ["shelf/x.ts", 'new globalThis.WebTransport("a");'],
    ],
  },
  {
    says: "an apostrophe that is shown is ’",
    faults: straight,
    refuses: [
      ["core/x.ts", 'const a = "the bus\'s own sides";'],
      ["core/x.ts", "const a = `it can't be read`;"],
      ["screens/x.tsx", "const A = () => <p>the side's meter</p>;"],
      ["screens/x.tsx", 'const A = () => <p title="the side\'s meter" />;'],
    ],
  },
];

describe.each(RULES)("$says", ({ faults, binds = () => true, refuses }) => {
  it("holds", () => {
    const found = channels
      .filter(({ file }) => binds(file))
      .flatMap((parsed) => faults(parsed).map((fault) => `src/${parsed.file}: ${fault}`));
    expect(found).toEqual([]);
  });

  it.each(refuses)("refuses in %s: %s", (file, code) => {
    expect(faults(parse(file, code))).toHaveLength(1);
  });
});

describe("packages", () => {
  const read = (name: string) => JSON.parse(readFileSync(join(ROOT, name), "utf8")) as Record<string, object>;

  it("are pinned to one exact version", () => {
    const { dependencies = {}, devDependencies = {} } = read("package.json");
    const versions = Object.entries({ ...dependencies, ...devDependencies });
    expect(versions.length).toBeGreaterThan(5);
    expect(versions.filter(([, version]) => !/^\d+\.\d+\.\d+$/.test(String(version)))).toEqual([]);
  });

  it("are locked without an address", () => {
    expect(read("package-lock.json").packages).toBeDefined();
    expect(readFileSync(join(ROOT, "package-lock.json"), "utf8")).not.toContain('"resolved"');
  });
});
