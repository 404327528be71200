import { type Missing, SHARE_FAILED, SHARED_CACHE } from "../names";

/** Field of the share form, as the manifest names it. */
const FIELD = "files";

const keep = async (request: Request, page: string): Promise<void> => {
  const form = await request.formData();
  const cache = await caches.open(SHARED_CACHE);
  const files = form.getAll(FIELD).filter((item) => item instanceof File);
  await Promise.all(
    files.map((file, at) =>
      cache.put(
        new Request(`${page}shared/${Date.now()}-${at}/${encodeURIComponent(file.name)}`),
        new Response(file),
      ),
    ),
  );
};

/** Why files that were shared could not be kept, as long as no page was told. */
let failure: Missing | null = null;

/** Why files that were shared could not be kept; once only, then null. Anybody can link to an address that says so. */
export const tellFailure = (): Missing | null => {
  const told = failure;
  failure = null;
  return told;
};

/**
 * Keeps the files that another program shared and leads on to the page, which takes them out; where they cannot be
 * kept the page opens all the same, and says so.
 * @param page address of the page
 */
export const keepShared = async (request: Request, page: string): Promise<Response> => {
  failure = await keep(request, page).then(
    () => null,
    (error: Error) => (error.name === "QuotaExceededError" ? "full" : "unread"),
  );
  return Response.redirect(`${page}?${failure ? SHARE_FAILED : "shared"}`, 303);
};
