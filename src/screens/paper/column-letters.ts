/** A column as spreadsheets call it: 1 is A, 27 is AA. */
export const columnLetters = (column: number): string => {
  const last = (column - 1) % 26;
  const before = (column - 1 - last) / 26;
  return (before > 0 ? columnLetters(before) : "") + String.fromCharCode(65 + last);
};
