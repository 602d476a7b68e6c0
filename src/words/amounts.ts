import { groupedText } from './numbers.ts';

/** A number of things. */
export const countText = (count: number): string => groupedText(count, 0);

/** A length of time in words: seconds, minutes or hours. */
export function timeWords(seconds: number): string {
  if (seconds < 1) return 'less than a second';
  if (seconds < 90) return `${Math.round(seconds)} s`;
  if (seconds < 90 * 60) return `${Math.round(seconds / 60)} min`;
  const hours = seconds / 3600;
  return hours < 48 ? `${hours.toFixed(hours < 10 ? 1 : 0)} h` : `${countText(Math.round(hours / 24))} days`;
}

/** A forecast of time in words. */
export const aboutTime = (seconds: number): string =>
  seconds < 1 ? timeWords(seconds) : `about ${timeWords(seconds)}`;

/** An amount of memory in words. */
export function bytesWords(bytes: number): string {
  const megabytes = bytes / 1e6;
  return megabytes < 1000
    ? `${Math.max(1, Math.round(megabytes))} MB`
    : `${countText(Number((megabytes / 1000).toPrecision(2)))} GB`;
}
