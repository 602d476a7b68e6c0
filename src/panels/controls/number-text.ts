/** A number's text with the minus sign that print has, U+2212, in place of a hyphen. */
export const withMinus = (text: string): string => text.replace(/-(?=[\d.])/g, '−');

/** Digits behind the point that a field shows at most. */
const MOST_DECIMALS = 3;

/** A number with at least `decimals` digits behind the point, and up to three where it has them. */
export function numberText(value: number, decimals: number): string {
  const shortest = value.toFixed(decimals);
  const longest = value.toFixed(MOST_DECIMALS);
  const text = Number(longest) === Number(shortest) ? shortest : longest.replace(/0+$/, '');
  return Number(text) === 0 ? text.replace('-', '') : text;
}

/** Always `decimals` digits behind the point, and never a minus before nothing but zeros. */
export const fixedText = (value: number, decimals: number): string =>
  withMinus((Number(value.toFixed(decimals)) + 0).toFixed(decimals));

/** A number for running text: rounded to `decimals` digits behind the point, without trailing zeros. */
export const roundedText = (value: number, decimals: number): string =>
  withMinus(String(Number(value.toFixed(decimals)) + 0));

/** Groups of three digits with thin spaces, as tables set large numbers. */
export function groupedText(value: number, decimals: number): string {
  const [whole, part] = withMinus(value.toFixed(decimals)).split('.');
  const grouped = whole.replace('−', '').length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, '\u2009') : whole;
  return part ? `${grouped}.${part}` : grouped;
}
