/** In a tab that nobody sees nothing is painted: then as long as a slow frame takes. */
const UNSEEN_MS = 200;

/** Comes once what was just drawn stands on the screen, so that what is asked for then does not hold it up. */
export const painted = (): Promise<void> =>
  new Promise((done) => {
    setTimeout(done, UNSEEN_MS);
    requestAnimationFrame(() => requestAnimationFrame(() => done()));
  });
