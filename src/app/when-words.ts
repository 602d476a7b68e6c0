/** When something was, for a sentence: today by the clock, else by the date. */
export function whenWords(time: number): string {
  const then = new Date(time);
  const today = then.toDateString() === new Date().toDateString();
  return today
    ? `at ${then.toLocaleTimeString([], { hour: '2-digit', minute: '2-digit' })}`
    : `on ${then.toLocaleDateString()}`;
}
