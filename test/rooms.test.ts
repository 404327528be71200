import { readdirSync, readFileSync } from "node:fs";
import { join, posix, resolve } from "node:path";
import { parseSync } from "vite";
import { describe, expect, it } from "vitest";

const ROOT = resolve(import.meta.dirname, "..");

/** What each room may import besides itself: rooms by path under src, packages by name. */
const ARROWS: { readonly [room: string]: readonly string[] } = {
  background: [],
  core: [],
  text: ["core"],
  document: ["core", "text", "@preact/signals-core"],
  shelf: ["background", "core", "text", "document", "@preact/signals-core", "idb", "uqr"],
  "shelf/worker": ["core", "text", "document", "shelf"],
  measure: ["background", "core", "text", "mediabunny"],
  "measure/simd": [],
  "measure/worker": ["core", "measure"],
  listen: ["core"],
  hear: ["core"],
  "hear/worker": ["core", "hear"],
  "hear/worklet": ["hear"],
  ui: ["core", "text", "preact", "preact/hooks", "@preact/signals"],
  screens: [
    "core",
    "text",
    "document",
    "shelf",
    "measure",
    "listen",
    "hear",
    "ui",
    "preact",
    "preact/hooks",
    "@preact/signals",
  ],
  "screens/worker": ["core"],
  offline: ["workbox-window"],
  "offline/worker": ["offline"],
  "": [
    "core",
    "text",
    "document",
    "shelf",
    "measure",
    "listen",
    "ui",
    "screens",
    "offline",
    "preact",
    "@preact/signals",
  ],
};
/** Rooms within a room that only it may use: workers, which it starts, and what is compiled for it. */
const INNER = [
  "shelf/worker",
  "measure/simd",
  "measure/worker",
  "hear/worker",
  "hear/worklet",
  "screens/worker",
  "offline/worker",
];

/** Lines that a file may have. A design choice. */
const LONGEST = 300;
/** Files that may be longer, and why. */
const LONGER: { readonly [file: string]: number } = {
  // The whole shape of a setup is read as one page.
  "core/model/setup.ts": 380,
};

/** The one file that hands on what others make: the declared surface of core. Nothing in src imports it. */
const SURFACE = "core/index.ts";

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

const sources: readonly Parsed[] = readdirSync(join(ROOT, "src"), { recursive: true, encoding: "utf8" })
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
  const most = LONGER[file] ?? LONGEST;
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
const ASKS = "offline/worker/copy.ts";

const talk = ({ file, nodes }: Parsed): string[] => {
  // A file may have something of its own by such a name.
  const own = nodes.flatMap(({ type, id }) => (type === "VariableDeclarator" ? [(id as Node).name] : []));
  return nodes
    .filter(({ type, name }) => type === "Identifier" && TALK.test(String(name)) && !own.includes(name))
    .map(({ name }) => String(name))
    .filter((name) => !(file === ASKS && name === "fetch"));
};

/** Ways of a script to open another page; the address of this one has no other origin. */
const LEAVES = /^(((window|globalThis|self|parent|top)(\??\.))?open|(\w+\.)*location\.(assign|replace))$/;
/** The only file that leads to another address: to the app's own folder. */
const LEADS = "main.tsx";

const leaving = ({ file, text, nodes }: Parsed): string[] => {
  const own = nodes.flatMap(({ type, id }) => (type === "VariableDeclarator" ? [(id as Node).name] : []));
  return nodes.flatMap(({ type, callee }) => {
    if (type !== "CallExpression" || !isNode(callee)) return [];
    const called = text.slice(callee.start, callee.end);
    const isLed = file === LEADS && called === "location.replace";
    return LEAVES.test(called) && !own.includes(called) && !isLed ? [called] : [];
  });
};

/** What may be shown: strings, templates and text between tags; comments and names are not. */
const shownTexts = ({ nodes }: Parsed): string[] =>
  nodes.flatMap((node) => {
    if (node.type === "TemplateElement") return [(node.value as { raw: string }).raw];
    return node.type === "JSXText" ? [String(node.value)] : literal(node);
  });

const straight = (parsed: Parsed): string[] =>
  shownTexts(parsed).filter((text) => /(\p{L}|^)'\p{L}/u.test(text));

/** Rooms whose results are codes and values; of the shelf only what reads and writes lists. */
const CODED = /^(core|document|measure|hear|listen|background)\/|^shelf\/csv/;
/** Files that may have words of their own, and why. */
const WORDED: { readonly [file: string]: string } = {
  "core/allocate/losses.ts": "what each loss is stands beside it for who reads the code; nobody is shown it",
  "core/check/faults.ts": "why each weight is as it is stands beside it; nobody is shown it",
  "core/inputs/terms.ts": "how people write the names of instruments: data",
  "core/pan/laws.ts": "a law is one record, its name and its source in it",
  "document/example.ts": "invented data",
};

/** Whether a text reads as a sentence or a part of one: codes are a few small words without a mark. */
const isSentence = (text: string): boolean =>
  /\S\s+\p{L}/u.test(text) &&
  (/\p{L}[.!?…]$/u.test(text) ||
    /\p{L}[,;:.] \p{L}.* \p{L}/u.test(text) ||
    /^\p{Lu}\p{Ll}+(\s+\p{Ll}+(?=\s|$)){2}/u.test(text) ||
    /(\p{Ll}+ ){6}/u.test(text));

const strings = ({ nodes }: Parsed): string[] => {
  // Where a module lies is no text.
  const paths = new Set(nodes.flatMap((node) => (isNode(node.source) ? [node.source] : [])));
  return nodes.flatMap((node) => {
    if (node.type === "TemplateLiteral")
      return [(node.quasis as Node[]).map(({ value }) => (value as { raw: string }).raw).join("0")];
    return paths.has(node) ? [] : literal(node);
  });
};

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
      ["core/x.ts", 'import { describeImage } from "../text/image";'],
      ["text/x.ts", 'import { run } from "../document/store";'],
      ["listen/x.ts", 'import "../text/names";'],
      ["document/x.ts", 'import { signal } from "@preact/signals";'],
      ["document/x.ts", 'import "../shelf/db";'],
      ["listen/x.ts", 'import "../measure/client";'],
      ["screens/x.tsx", 'import "../background/run";'],
      ["background/x.ts", 'import "../core/model/setup";'],
      ["ui/x.tsx", 'import "../screens/state";'],
      ["ui/x.tsx", 'import "../document/store";'],
      ["screens/kit/x.tsx", 'import "../../offline/update";'],
      ["screens/x.tsx", 'import "../shelf/worker/worker";'],
      ["screens/x.tsx", 'import "../measure/worker/read";'],
      ["screens/x.tsx", 'const w = new URL("../measure/worker/read.ts", import.meta.url);'],
      ["offline/x.ts", 'import "../core/setup";'],
      ["main.tsx", 'import "./offline/worker/sw";'],
      ["main.tsx", 'import "workbox-window";'],
      ["offline/worker/x.ts", 'import "workbox-window";'],
      ["screens/x.tsx", 'import "workbox-window";'],
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
    refuses: [["core/x.ts", "\n".repeat(LONGEST).concat("f();")]],
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
    binds: (file) => file !== SURFACE,
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
    says: "the surface of core is for tests and benches: the app loads each part when it is needed",
    faults: ({ text }) => text.match(/["'][./]*\/(core(\/index)?|index)["']/g) ?? [],
    refuses: [
      ["screens/x.ts", 'import { evaluate } from "../core";'],
      ["document/x.ts", 'import { evaluate } from "../core/index";'],
      ["core/pan/x.ts", 'import { evaluate } from "../index";'],
    ],
  },
  {
    says: "what can fail comes to a Result",
    faults: ({ text }) => text.match(/\bok: false\b/g) ?? [],
    binds: (file) => file !== "core/lib/result.ts",
    refuses: [
      ["shelf/x.ts", 'const a = () => ({ ok: false, says: "no" });'],
      ["measure/x.ts", "type A = { readonly ok: false };"],
    ],
  },
  {
    says: "what a kind of listener is stands in its table",
    faults: ({ text }) =>
      text.match(/kind [!=]== "(drummer|performer)"|\b[lL]istener\??\.kind [!=]==/g) ?? [],
    refuses: [
      ["screens/x.tsx", 'const a = (l: L) => l.kind === "drummer";'],
      ["core/x.ts", 'const a = (listener: L) => listener.kind !== "audience";'],
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
    says: "no page of another address is opened, which no policy could forbid",
    faults: leaving,
    refuses: [
      ["screens/x.tsx", 'window.open("https://example.org/");'],
      ["screens/x.tsx", 'open("https://example.org/");'],
      ["screens/x.tsx", 'globalThis.location.assign("https://example.org/");'],
      ["shelf/x.ts", 'location.replace("https://example.org/");'],
      [LEADS, 'location.assign("https://example.org/");'],
    ],
  },
  {
    says: "sentences are made in the room of texts: the rooms under it give codes and values",
    faults: (parsed) => strings(parsed).filter(isSentence),
    binds: (file) => CODED.test(file) && !(file in WORDED),
    refuses: [
      ["core/x.ts", 'const why = "The bus is full.";'],
      ["document/x.ts", 'note("The bus is gone");'],
      ["document/x.ts", ["note(`", "{at}: missing, left out`);"].join("$")],
      ["measure/x.ts", ["why(`has ", "{n} channels; allowed are 1 to 64`);"].join("$")],
      ["shelf/csv-x.ts", 'const says = "there is no row under the headers of this list";'],
    ],
  },
  {
    says: "what gives codes knows the room of texts by its types alone",
    faults: ({ body }) =>
      body.flatMap((node) => {
        const [path] = literal(node.source);
        const isOfTexts = node.type === "ImportDeclaration" && /^(\.\.\/)+text\//.test(path ?? "");
        return isOfTexts && node.importKind !== "type" ? [path ?? ""] : [];
      }),
    binds: (file) => /^(document|measure)\//.test(file),
    refuses: [
      ["document/x.ts", 'import { reasonOf } from "../text/words";'],
      ["measure/wav/x.ts", 'import { describeSoundFile, type WavNote } from "../../text/sound-files";'],
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
    const found = sources
      .filter(({ file }) => binds(file))
      .flatMap((parsed) => faults(parsed).map((fault) => `src/${parsed.file}: ${fault}`));
    expect(found).toEqual([]);
  });

  it.each(refuses)("refuses in %s: %s", (file, code) => {
    expect(faults(parse(file, code))).toHaveLength(1);
  });
});

const declared = ({ body }: Parsed, valuesOnly = false): string[] =>
  body.flatMap((node) => {
    const made = node.type === "ExportNamedDeclaration" ? (node.declaration as Node | null) : null;
    if (valuesOnly && made?.type.startsWith("TS")) return [];
    const declarations = (made?.declarations as Node[] | undefined) ?? (made ? [made] : []);
    return declarations.flatMap(({ id }) => (isNode(id) && typeof id.name === "string" ? [id.name] : []));
  });

const usesOf = ({ nodes }: Parsed): string[] =>
  nodes.flatMap(({ type, name }) =>
    (type === "Identifier" || type === "JSXIdentifier") && typeof name === "string" ? [name] : [],
  );

describe("names", () => {
  it("are exported from one file only", () => {
    const files = new Map<string, string[]>();
    for (const parsed of sources)
      for (const name of declared(parsed)) files.set(name, [...(files.get(name) ?? []), parsed.file]);
    const twice = [...files].filter(([, of]) => of.length > 1);
    expect(twice).toEqual([]);
  });

  it("of values that core exports are used in another file of src, or are part of its surface", () => {
    const uses = new Map(sources.map((parsed) => [parsed.file, new Set(usesOf(parsed))]));
    const unused = sources
      .filter(({ file }) => roomOf(file) === "core")
      .flatMap((parsed) => declared(parsed, true).map((name) => ({ name, file: parsed.file })))
      .filter(({ name, file }) => ![...uses].some(([other, names]) => other !== file && names.has(name)))
      .map(({ name, file }) => `${file}: ${name}`);
    expect(unused).toEqual([]);
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
