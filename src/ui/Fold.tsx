import { ChevronDown } from 'lucide-react';
import { type ReactNode, useId, useState } from 'react';
import { Button } from './Button.tsx';
import styles from './fold.module.css';

/** Which folds are open, for as long as the page lives. */
const opened = new Set<string>();

interface FoldProps {
  /** Unique on the page: "Base plate body". */
  readonly name: string;
  /** What stands on the fold when its group already says the rest; the name if left out. */
  readonly label?: string;
  /** What is inside, in a few words, shown while it is folded. */
  readonly brief?: ReactNode;
  readonly children: ReactNode;
}

/** A part of a group that is opened when it is wanted. */
export function Fold({ name, label = name, brief, children }: FoldProps) {
  const id = useId();
  const [open, setOpen] = useState(opened.has(name));
  const toggle = () => {
    if (open) opened.delete(name);
    else opened.add(name);
    setOpen(!open);
  };
  return (
    <div className={styles['fold']}>
      <h3 className={styles['heading']}>
        <Button look="bare" aria-expanded={open} aria-controls={id} aria-label={name} onClick={toggle}>
          <ChevronDown className={styles['chevron']} size={12} aria-hidden="true" data-closed={!open} />
          <span>{label}</span>
          {open ? null : <span className={styles['brief']}>{brief}</span>}
        </Button>
      </h3>
      <div id={id} className={styles['body']} hidden={!open}>
        {open ? children : null}
      </div>
    </div>
  );
}
