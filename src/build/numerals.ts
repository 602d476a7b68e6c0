/** A decimal number for a file: `digits` after the point at most, no exponent, no trailing zeros, never -0. */
export function decimal(value: number, digits: number): string {
  const text = value.toFixed(digits);
  const short = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return short === '-0' ? '0' : short;
}

/** A decimal number for people: a fixed number of digits and a true minus. */
export function shown(value: number, digits: number): string {
  const text = value.toFixed(digits);
  const signless = Number(text) === 0 ? text.replace('-', '') : text;
  return signless.replace('-', '−');
}
