/** What does not fit together in the house pans: filled when the arithmetic for it is there. */
export const Notes = () => null;
