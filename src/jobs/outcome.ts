import type { Result } from '../math/result.ts';

/** How a job ended: exactly one of these, once. */
export type JobOutcome<Value> =
  | { readonly kind: 'done'; readonly value: Value }
  | { readonly kind: 'failed'; readonly reason: string }
  | { readonly kind: 'cancelled' };

/** A job that was dropped before it gave a result. */
export const CANCELLED: JobOutcome<never> = { kind: 'cancelled' };

/** The text of whatever was thrown. */
export const reasonOf = (thrown: unknown): string => (thrown instanceof Error ? thrown.message : String(thrown));

/** The value of what a job found; its fault is thrown, since only an error crosses from a worker as one. */
export function foundOrThrow<Value>(found: Result<Value, { readonly message: string }>): Value {
  if (!found.ok) throw new Error(found.fault.message);
  return found.value;
}
