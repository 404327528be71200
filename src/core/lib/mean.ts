/** Numbers added up; 0 of none. */
export const sumOf = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);

/** Their arithmetic mean; NaN of none. */
export const meanOf = (values: readonly number[]): number => sumOf(values) / values.length;
