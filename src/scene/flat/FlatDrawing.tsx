/** placeholder */
export function FlatDrawing(_: { readonly describedBy: string }) {
  return null;
}
