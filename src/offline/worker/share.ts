import { SHARE_FAILED, SHARED_CACHE } from "../names";

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

/** Files were shared that could not be kept, and no page was told yet. */
let hasFailed = false;

/** Whether files were shared that could not be kept; true once only. Anybody can link to an address that says so. */
export const tellFailure = (): boolean => {
  const failed = hasFailed;
  hasFailed = false;
  return failed;
};

/**
 * Keeps the files that another program shared and leads on to the page, which takes them out; where they cannot be
 * kept the page opens all the same, and says so.
 * @param page address of the page
 */
export const keepShared = async (request: Request, page: string): Promise<Response> => {
  hasFailed = await keep(request, page).then(
    () => false,
    () => true,
  );
  return Response.redirect(`${page}?${hasFailed ? SHARE_FAILED : "shared"}`, 303);
};
