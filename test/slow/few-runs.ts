import { configureGlobal } from "fast-check";

// Each of thousands of mutants runs the properties again: fewer cases each are enough to kill one.
configureGlobal({ numRuns: 25 });
