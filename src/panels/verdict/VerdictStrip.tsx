import { X } from 'lucide-react';
import { memo, type ReactNode, useCallback, useEffect, useState } from 'react';
import { Button } from '../../ui/Button.tsx';
import { BuildableCell, BuildableWhy } from './BuildableVerdict.tsx';
import { REASON_ID } from './Cell.tsx';
import { FirmnessCell, FirmnessWhy } from './FirmnessVerdict.tsx';
import { LimitsCell, LimitsWhy } from './LimitsVerdict.tsx';
import { ReachCell, ReachWhy } from './ReachVerdict.tsx';
import { SpokenSummary } from './SpokenSummary.tsx';
import { TiltedCell, TiltedWhy } from './TiltedVerdict.tsx';
import { UsableCell, UsableWhy } from './UsableVerdict.tsx';
import styles from './verdict.module.css';

/** The verdicts in their order; another one is another entry. */
const VERDICTS = [
  { id: 'reach', title: 'Reach', cell: ReachCell, why: ReachWhy },
  { id: 'usable', title: 'Usable', cell: UsableCell, why: UsableWhy },
  { id: 'tilted', title: 'Reach at any tilt', cell: TiltedCell, why: TiltedWhy },
  { id: 'firmness', title: 'Firmness', cell: FirmnessCell, why: FirmnessWhy },
  { id: 'buildable', title: 'Can it be built', cell: BuildableCell, why: BuildableWhy },
  { id: 'limits', title: 'Limits at this pose', cell: LimitsCell, why: LimitsWhy },
] as const;

/** The verdicts in words, always in view; each opens its reason. */
export const VerdictStrip = memo(function VerdictStrip() {
  const [open, setOpen] = useState<string | null>(null);
  const [all, setAll] = useState(false);
  const toggle = useCallback((id: string) => setOpen((now) => (now === id ? null : id)), []);
  const close = useCallback(() => setOpen(null), []);
  const shown = VERDICTS.find(({ id }) => id === open);
  return (
    <div className={styles['strip']} data-all={all}>
      <div className={styles['cells']}>
        {VERDICTS.map(({ id, cell: VerdictCell }) => (
          <VerdictCell key={id} open={open === id} onToggle={toggle} />
        ))}
        {/* where there is room for one line only */}
        <Button
          look="quiet"
          className={styles['rest']}
          aria-expanded={all}
          aria-label={all ? 'Only the first verdict' : 'All verdicts'}
          onClick={() => setAll(!all)}
        >
          {all ? 'less' : `+ ${VERDICTS.length - 1}`}
        </Button>
      </div>
      {shown ? (
        <Reason key={shown.id} title={shown.title} onClose={close}>
          <shown.why />
        </Reason>
      ) : null}
      <SpokenSummary />
    </div>
  );
});

interface ReasonProps {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: ReactNode;
}

/** The reason of one verdict, laid over what is below the strip; Escape closes it. */
function Reason({ title, onClose, children }: ReasonProps) {
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.key !== 'Escape' || event.defaultPrevented) return;
      onClose();
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, [onClose]);
  return (
    <section id={REASON_ID} className={styles['reason']} aria-label={`${title}: how it was computed`}>
      <header>
        <h2>{title}: how it was computed</h2>
        <Button look="quiet" onClick={onClose} aria-label="Close">
          <X size={16} aria-hidden="true" />
        </Button>
      </header>
      <div className={styles['text']}>{children}</div>
    </section>
  );
}
