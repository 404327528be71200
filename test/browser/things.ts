import type { Page } from "playwright-core";

/** What lies in the browser's storage, by key, without asking the app. */
export const things = (page: Page): Promise<Record<string, unknown>> =>
  page.evaluate(
    () =>
      new Promise<Record<string, unknown>>((done, failed) => {
        const opened = indexedDB.open("hatside");
        opened.onerror = () => failed(opened.error);
        opened.onsuccess = () => {
          const store = opened.result.transaction("things").objectStore("things");
          const [keys, values] = [store.getAllKeys(), store.getAll()];
          values.onsuccess = () => {
            opened.result.close();
            done(Object.fromEntries(keys.result.map((key, at) => [String(key), values.result[at]])));
          };
        };
      }),
  );

/** The texts of the setups in it. */
export const textsIn = async (page: Page): Promise<string[]> =>
  Object.values(await things(page)).flatMap((thing) => (thing as { readonly text?: string }).text ?? []);

/** The key of the one setup that lies in it. */
export const onlyKey = async (page: Page): Promise<string> => {
  const [key, ...others] = Object.keys(await things(page)).filter((k) => k.startsWith("setup-"));
  if (key === undefined || others.length > 0) throw new Error(`not one setup but ${1 + others.length}`);
  return key;
};

/** Puts something into it as another tab would. */
export const lay = (page: Page, key: string, value: unknown): Promise<void> =>
  page.evaluate(
    ([key, value]) =>
      new Promise<void>((done, failed) => {
        const opened = indexedDB.open("hatside");
        opened.onsuccess = () => {
          const transaction = opened.result.transaction("things", "readwrite");
          transaction.objectStore("things").put(value, key as string);
          transaction.onabort = () => failed(transaction.error);
          transaction.oncomplete = () => {
            opened.result.close();
            done();
          };
        };
      }),
    [key, value] as const,
  );
