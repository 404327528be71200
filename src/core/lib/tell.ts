/** Hears how far something that takes long has come, 0…1. */
export type Tell = (share: number) => void;
