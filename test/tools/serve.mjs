import { createHash } from "node:crypto";
import { readFile } from "node:fs/promises";
import { createServer } from "node:http";
import { extname, resolve, sep } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { brotliCompress, constants, gzip } from "node:zlib";

const TYPES = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json",
  ".webmanifest": "application/manifest+json",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".txt": "text/plain; charset=utf-8",
};
const PACKED = /^(text|application)\/|svg/;
const pack = {
  br: (body) => promisify(brotliCompress)(body, { params: { [constants.BROTLI_PARAM_QUALITY]: 9 } }),
  gzip: promisify(gzip),
};

/** File that a request's path names, or null where it leads out of the folder or makes no sense. */
const fileOf = (dir, base, url) => {
  let path;
  try {
    path = decodeURIComponent(new URL(url, "http://localhost").pathname);
  } catch {
    return null;
  }
  if (!path.startsWith(base) || path.includes("\0")) return null;
  const inside = path.slice(base.length);
  const file = resolve(dir, `./${inside === "" || inside.endsWith("/") ? `${inside}index.html` : inside}`);
  return file.startsWith(dir + sep) ? file : null;
};

/** Packed bodies by way and fingerprint: each is packed once. */
const packed = new Map();
const packedOnce = (way, tag, body) => {
  const key = `${way} ${tag}`;
  if (!packed.has(key)) packed.set(key, pack[way](body));
  return packed.get(key);
};

const answer = async (request, response, file) => {
  let body = await readFile(file);
  const type = TYPES[extname(file)] ?? "application/octet-stream";
  const tag = `"${createHash("sha256").update(body).digest("hex").slice(0, 16)}"`;
  const headers = {
    "content-type": type,
    "cache-control": "no-cache",
    etag: tag,
    "x-content-type-options": "nosniff",
  };
  if (request.headers["if-none-match"] === tag) return response.writeHead(304, headers).end();
  const accepted = String(request.headers["accept-encoding"] ?? "");
  const way = PACKED.test(type) ? Object.keys(pack).find((name) => accepted.includes(name)) : undefined;
  if (way) {
    body = await packedOnce(way, tag, body);
    headers["content-encoding"] = way;
    headers.vary = "accept-encoding";
  }
  headers["content-length"] = body.length;
  response.writeHead(200, headers).end(request.method === "HEAD" ? undefined : body);
};

const listen = (server, port) =>
  new Promise((done, failed) => {
    server.once("error", failed);
    server.listen(port, "127.0.0.1", () => done(server.address().port));
  });

/**
 * Serves a folder on this machine.
 * @param {string} folder
 * @param {{ port?: number, base?: string, redirectsHome?: boolean, answersAll?: boolean }} [options] port 0 takes any
 * free one; base is the path under which the folder lies; as some hosts do, the folder's own address leads to that of
 * its page, and every address without a file is answered with the page
 * @returns {Promise<{ url: string, port: number, seen: string[], stop: () => Promise<void> }>} seen: path of every request so far
 */
export const serve = async (
  folder,
  { port = 0, base = "/", redirectsHome = false, answersAll = false } = {},
) => {
  const dir = resolve(folder);
  const seen = [];
  const server = createServer((request, response) => {
    seen.push(request.url);
    const refuse = (status) =>
      response.writeHead(status, { "content-type": TYPES[".txt"] }).end(`${status}\n`);
    if (request.method !== "GET" && request.method !== "HEAD") return refuse(405);
    const { pathname, search } = new URL(request.url, "http://localhost");
    if (redirectsHome && pathname === base)
      return response.writeHead(302, { location: `${base}index.html${search}` }).end();
    const file = fileOf(dir, base, request.url);
    if (file === null) return refuse(404);
    const page = resolve(dir, "index.html");
    answer(request, response, file)
      .catch(() => answersAll && answer(request, response, page))
      .then((answered) => answered === false && refuse(404));
  });
  const used = await listen(server, port);
  const stop = () =>
    new Promise((done) => {
      server.close(() => done());
      server.closeAllConnections();
    });
  return { url: `http://localhost:${used}${base}`, port: used, seen, stop };
};

const FIRST_PORT = 4173;
const TRIES = 50;

const serveOnFreePort = async (folder) => {
  if (process.env.PORT) return serve(folder, { port: Number(process.env.PORT) });
  for (let port = FIRST_PORT; port < FIRST_PORT + TRIES; port += 1)
    try {
      return await serve(folder, { port });
    } catch (error) {
      if (error.code !== "EADDRINUSE") throw error;
    }
  return serve(folder);
};

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const { url } = await serveOnFreePort(resolve(import.meta.dirname, "../../dist"));
  console.log(`Hatside is at ${url} (Ctrl+C ends it)`);
}
