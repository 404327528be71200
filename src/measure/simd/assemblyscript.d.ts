/*
 * What loops.ts uses of AssemblyScript, for TypeScript, which cannot read the whole list that comes with it. Whether a
 * pointer was meant as a number only AssemblyScript itself can tell, at the build.
 */

type usize = number;
type u8 = number;
type i32 = number;
type f64 = number;
/** Two numbers side by side. */
interface v128 {
  readonly lanes: 2;
}

declare function min(a: usize, b: usize): usize;
declare function max(a: f64, b: f64): f64;
declare function load<T extends f64>(pointer: usize): T;
declare function store<T extends f64>(pointer: usize, value: T): void;

declare namespace v128 {
  function load(pointer: usize): v128;
  function load64_zero(pointer: usize): v128;
  function store(pointer: usize, value: v128): void;
  function shuffle<T extends f64>(a: v128, b: v128, ...lanes: T[]): v128;
  function any_true(a: v128): boolean;
  function bitselect(ifSet: v128, ifNot: v128, mask: v128): v128;
}

declare namespace f64x2 {
  function splat(value: f64): v128;
  function extract_lane(a: v128, lane: 0 | 1): f64;
  function add(a: v128, b: v128): v128;
  function sub(a: v128, b: v128): v128;
  function mul(a: v128, b: v128): v128;
  function abs(a: v128): v128;
  function pmax(a: v128, b: v128): v128;
  function convert_low_i32x4_s(a: v128): v128;
  function gt(a: v128, b: v128): v128;
}
