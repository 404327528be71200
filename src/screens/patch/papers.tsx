/** Out of the phone: sheet, lists, links. */
export const Papers = () => null;
