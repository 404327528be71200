/**
 * Remembers where what has the focus stands on the screen. Called once the page was drawn anew, what this gives
 * scrolls by as much as that has moved: a part that comes late does not push it out of sight.
 */
export const focusStays = (): (() => void) => {
  const focused = document.activeElement;
  const before = focused?.getBoundingClientRect();
  if (!focused || !before || before.bottom < 0 || before.top > innerHeight) return () => {};
  return () => {
    if (focused.isConnected) scrollBy(0, focused.getBoundingClientRect().top - before.top);
  };
};
