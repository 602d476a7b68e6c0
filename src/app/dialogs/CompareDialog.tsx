import { DialogFrame } from './DialogFrame.tsx';

/** Up to four designs side by side. */
export function CompareDialog() {
  return (
    <DialogFrame title="Compare" description="Up to four designs side by side.">
      {null}
    </DialogFrame>
  );
}
