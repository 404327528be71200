/** Draws the app's icons into public/icons: two threads that cross between two lines. Run it after a change of the drawing. */
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { crc32, deflateSync } from "node:zlib";

const PUBLIC = resolve(import.meta.dirname, "../../public");
const OUT = join(PUBLIC, "icons");
/** The icons stand on the ground that the phone shows behind them while the app opens. */
const { background_color: ground } = JSON.parse(readFileSync(join(PUBLIC, "manifest.webmanifest"), "utf8"));
const GROUND = [1, 3, 5].map((at) => Number.parseInt(ground.slice(at, at + 2), 16));
const LINE = [0xe9, 0xe6, 0xdf];
const LEFT = [0x5b, 0xa8, 0xff];
const RIGHT = [0xff, 0x6a, 0x5e];

/** All in units of the icon's edge, before it is scaled about its centre. */
const CORNER = 0.22;
const STROKE = 0.085;
const X = [0.24, 0.76];
const Y = [0.2, 0.8];

/** Cubic of one thread: leaves its line upright, arrives upright. */
const thread = (from, to) => {
  const [top, bottom] = [Y[0] + STROKE, Y[1] - STROKE];
  return [
    [from, top],
    [from, 0.52],
    [to, 0.48],
    [to, bottom],
  ];
};
const STROKES = [
  {
    colour: LINE,
    points: [
      [X[0], Y[0]],
      [X[1], Y[0]],
    ],
  },
  {
    colour: LINE,
    points: [
      [X[0], Y[1]],
      [X[1], Y[1]],
    ],
  },
  { colour: RIGHT, points: thread(X[1], X[0]) },
  { colour: LEFT, points: thread(X[0], X[1]) },
];

const STEPS = 48;
const along = (points, t) => {
  const weights =
    points.length === 2 ? [1 - t, t] : [(1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t ** 3];
  return [0, 1].map((axis) => weights.reduce((sum, weight, at) => sum + weight * points[at][axis], 0));
};
const polyline = (points) => Array.from({ length: STEPS + 1 }, (_, at) => along(points, at / STEPS));

const toSegment = ([x, y], [ax, ay], [bx, by]) => {
  const [dx, dy] = [bx - ax, by - ay];
  const t = Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)));
  return Math.hypot(x - ax - t * dx, y - ay - t * dy);
};
const toLine = (point, line) => {
  let least = Infinity;
  for (let at = 0; at + 1 < line.length; at += 1)
    least = Math.min(least, toSegment(point, line[at], line[at + 1]));
  return least;
};
/** Distance to the rounded square, negative inside. */
const toSquare = ([x, y], corner) => {
  const [dx, dy] = [Math.abs(x - 0.5) - 0.5 + corner, Math.abs(y - 0.5) - 0.5 + corner];
  return Math.hypot(Math.max(dx, 0), Math.max(dy, 0)) + Math.min(Math.max(dx, dy), 0) - corner;
};

/** Pixels of an icon. `scale` shrinks the drawing about the centre, `corner` rounds the ground. */
const pixels = (size, scale, corner) => {
  const lines = STROKES.map(({ colour, points }) => ({ colour, line: polyline(points) }));
  const cover = (distance) => Math.max(0, Math.min(1, 0.5 - distance * size));
  const rgba = new Uint8Array(size * size * 4);
  for (let row = 0; row < size; row += 1)
    for (let column = 0; column < size; column += 1) {
      const place = [(column + 0.5) / size, (row + 0.5) / size];
      const drawn = place.map((value) => (value - 0.5) / scale + 0.5);
      let colour = GROUND;
      for (const stroke of lines) {
        const share = cover((toLine(drawn, stroke.line) - STROKE / 2) * scale);
        colour = colour.map((value, at) => value + share * (stroke.colour[at] - value));
      }
      const alpha = corner === 0 ? 1 : cover(toSquare(place, corner));
      rgba.set([...colour.map(Math.round), Math.round(alpha * 255)], (row * size + column) * 4);
    }
  return rgba;
};

const chunk = (name, data) => {
  const body = Buffer.concat([Buffer.from(name, "latin1"), data]);
  const out = Buffer.alloc(body.length + 8);
  out.writeUInt32BE(data.length, 0);
  body.copy(out, 4);
  out.writeUInt32BE(crc32(body) >>> 0, body.length + 4);
  return out;
};
const png = (size, rgba) => {
  const head = Buffer.alloc(13);
  head.writeUInt32BE(size, 0);
  head.writeUInt32BE(size, 4);
  head.set([8, 6, 0, 0, 0], 8);
  const rows = Buffer.alloc(size * (size * 4 + 1));
  for (let row = 0; row < size; row += 1)
    rows.set(rgba.subarray(row * size * 4, (row + 1) * size * 4), row * (size * 4 + 1) + 1);
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk("IHDR", head),
    chunk("IDAT", deflateSync(rows, { level: 9 })),
    chunk("IEND", Buffer.alloc(0)),
  ]);
};

const hex = (colour) => `#${colour.map((value) => value.toString(16).padStart(2, "0")).join("")}`;
const svg = () => {
  const at = (point) => point.map((value) => Math.round(value * 1000) / 10).join(" ");
  const path = ({ colour, points }) => {
    const [start, ...rest] = points.map(at);
    return `  <path d="M${start} ${rest.length === 1 ? "L" : "C"}${rest.join(" ")}" stroke="${hex(colour)}"/>`;
  };
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 100" fill="none" stroke-width="${STROKE * 100}" stroke-linecap="round">
  <rect width="100" height="100" rx="${CORNER * 100}" fill="${hex(GROUND)}"/>
${STROKES.map(path).join("\n")}
</svg>
`;
};

mkdirSync(OUT, { recursive: true });
writeFileSync(join(OUT, "icon-192.png"), png(192, pixels(192, 1, CORNER)));
writeFileSync(join(OUT, "icon-512.png"), png(512, pixels(512, 1, CORNER)));
writeFileSync(join(OUT, "maskable-512.png"), png(512, pixels(512, 0.8, 0)));
writeFileSync(join(OUT, "icon.svg"), svg());
