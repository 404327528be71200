/** Address of a script that the build makes a file of its own of. */
declare module "*?worker&url" {
  const url: string;
  export = url;
}
