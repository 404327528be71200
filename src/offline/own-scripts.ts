import { ROOT } from "./root";

/** The part of Trusted Types that is used here; not in the type library yet. */
interface ScriptPolicies {
  createPolicy(name: "default", rules: { createScriptURL: (url: string) => string }): unknown;
}

const ownScript = (text: string): string => {
  const url = new URL(text, document.baseURI);
  if (!url.href.startsWith(ROOT)) throw new TypeError(`${url.href} is no script of this app`);
  return text;
};

/**
 * Lets workers start from the app's own folder and from nowhere else, where the browser knows Trusted Types;
 * every other way from text to script stays shut. Call it first of all.
 */
export const allowOwnScripts = (): void => {
  const policies = (globalThis as { trustedTypes?: ScriptPolicies }).trustedTypes;
  policies?.createPolicy("default", { createScriptURL: ownScript });
};
