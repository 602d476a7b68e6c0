/** How a job ended: exactly one of these, once. */
export type JobOutcome<Value> =
  | { readonly kind: 'done'; readonly value: Value }
  | { readonly kind: 'failed'; readonly reason: string }
  | { readonly kind: 'cancelled' };

/** A job that was dropped before it gave a result. */
export const CANCELLED: JobOutcome<never> = { kind: 'cancelled' };

/** The text of whatever was thrown. */
export const reasonOf = (thrown: unknown): string => (thrown instanceof Error ? thrown.message : String(thrown));
