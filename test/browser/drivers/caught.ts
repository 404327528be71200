/**
 * What goes wrong in a page, caught in the page itself, for engines whose protocol does not tell: body of a function
 * that takes `tell`. Requests that left the page's origin are found even if they were made before.
 */
export const CATCH = `
  const policy = (e) => tell("policy: Content-Security-Policy " + e.effectiveDirective + " " + e.blockedURI);
  addEventListener("securitypolicyviolation", policy);
  addEventListener("unhandledrejection", (e) => tell("uncaught: " + e.reason));
  addEventListener("error", (e) => {
    if (e.target === globalThis) tell("uncaught: " + e.message);
    else tell("not loaded: " + (e.target.src ?? e.target.href));
  }, true);
  new PerformanceObserver((list) => {
    for (const { name } of list.getEntries())
      if (!/^(blob|data):/.test(name) && new URL(name, location.href).origin !== location.origin)
        tell("leaves: " + name);
  }).observe({ type: "resource", buffered: true });
`;
