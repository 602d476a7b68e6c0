import { ChevronDown } from 'lucide-react';
import { type ReactNode, useId, useState } from 'react';
import { Button } from './Button.tsx';
import styles from './group.module.css';

/** Which groups are folded, for as long as the page lives. */
const folded = new Map<string, boolean>();

interface GroupProps {
  readonly title: string;
  /** Letter of the plate that the group is about; the base is drawn with the heavier line. */
  readonly plate?: 'A' | 'B';
  /** What the group holds, in a few words, shown while it is folded. */
  readonly brief?: ReactNode;
  readonly startsFolded?: boolean;
  readonly children: ReactNode;
}

/** A titled group of controls that can be folded. */
export function Group({ title, plate, brief, startsFolded = false, children }: GroupProps) {
  const id = useId();
  const [closed, setClosed] = useState(folded.get(title) ?? startsFolded);
  const toggle = () => {
    folded.set(title, !closed);
    setClosed(!closed);
  };
  return (
    <section className={styles['group']} data-plate={plate}>
      <h2 className={styles['heading']}>
        <Button look="bare" aria-expanded={!closed} aria-controls={id} onClick={toggle}>
          {plate ? (
            <span className={styles['letter']} data-plate={plate}>
              {plate}
            </span>
          ) : null}
          <span className={styles['title']}>{title}</span>
          {closed ? <span className={styles['brief']}>{brief}</span> : null}
          <ChevronDown className={styles['chevron']} size={14} aria-hidden="true" data-closed={closed} />
        </Button>
      </h2>
      <div id={id} className={styles['body']} hidden={closed}>
        {closed ? null : children}
      </div>
    </section>
  );
}
