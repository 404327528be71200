import { SHARED_CACHE } from "../names";

/** Field of the share form, as the manifest names it. */
const FIELD = "files";

/**
 * Keeps the files that another program shared and leads on to the page, which takes them out.
 * @param page address of the page
 */
export const keepShared = async (request: Request, page: string): Promise<Response> => {
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
  return Response.redirect(`${page}?shared`, 303);
};
