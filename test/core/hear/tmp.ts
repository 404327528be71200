export { apart } from "../../../src/core/hear/sketch";
export * from "./sessions";
