/** A number's text with the minus sign that print has, U+2212, in place of a hyphen. */
export const withMinus = (text: string): string => text.replace(/-(?=[\d.])/g, '−');

/** Digits behind the point that a field shows at most. */
const MOST_DECIMALS = 3;

/** A number with at least `decimals` digits behind the point, and up to three where it has them. */
export function numberText(value: number, decimals: number): string {
  const shortest = value.toFixed(decimals);
  const longest = value.toFixed(MOST_DECIMALS);
  const text = Number(longest) === Number(shortest) ? shortest : longest.replace(/0+$/, '');
  return Number(text) === 0 ? text.replace('-', '') : withMinus(text);
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

/** Three significant figures, more digits only where the number is large. */
export function figure(value: number): string {
  if (value === 0) return '0';
  const decimals = Math.max(0, 2 - Math.floor(Math.log10(Math.abs(value))));
  return groupedText(Number(value.toPrecision(3)), Math.min(decimals, 6));
}

/** Three significant figures, as results from first-order models deserve. */
export const three = (value: number): string => {
  if (!Number.isFinite(value)) return 'no bound';
  const size = Math.abs(value);
  if (size < TOO_SMALL) return '0';
  return withMinus(String(Number(value.toPrecision(3))));
};

/** Below a millionth of any unit shown here a number is rounding. */
const TOO_SMALL = 1e-6;

/** Numbers of a vector. */
export const listed = (values: ArrayLike<number>, factor = 1): string =>
  Array.from(values, (value) => three(value * factor)).join(', ');

/** A tick's number with as many digits as the step between ticks needs. */
export function tickText(tick: number, ticks: readonly number[]): string {
  const step = ticks.length > 1 ? Math.abs(ticks[1] - ticks[0]) : Math.abs(tick) || 1;
  return groupedText(tick, Math.max(0, -Math.floor(Math.log10(step) + 1e-9)));
}
