import { SHARE_FAILED, SHARE_FULL, SHARED_CACHE } from "../names";

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

/**
 * Keeps the files that another program shared and leads on to the page, which takes them out; where they cannot be
 * kept the page opens all the same, and says so.
 * @param page address of the page
 */
export const keepShared = async (request: Request, page: string): Promise<Response> => {
  const query = await keep(request, page).then(
    () => "shared",
    (error: Error) => (error.name === "QuotaExceededError" ? `${SHARE_FAILED}=${SHARE_FULL}` : SHARE_FAILED),
  );
  return Response.redirect(`${page}?${query}`, 303);
};
