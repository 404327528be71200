import { signal } from "@preact/signals";

/** An input list that was opened with the app or shared to it and waits to be looked at. */
export const arrivedList = signal<File | null>(null);
