/**
 * The outcome of something that may fail for a reason the user can act on.
 * Bugs throw; bad input and impossible requests return a fault.
 */
export type Result<Value, Fault> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly fault: Fault };

/** Wraps a value as a success. */
export const ok = <Value>(value: Value): { readonly ok: true; readonly value: Value } => ({ ok: true, value });

/** Wraps a reason as a failure. */
export const failed = <Fault>(fault: Fault): { readonly ok: false; readonly fault: Fault } => ({ ok: false, fault });
