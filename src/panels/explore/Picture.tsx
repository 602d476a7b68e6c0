import { Download } from 'lucide-react';
import { DropdownMenu } from 'radix-ui';
import type { ReactNode, RefObject } from 'react';
import { Button } from '../../ui/Button.tsx';
import styles from './pictures.module.css';
import { savePicture } from './save-picture.ts';

interface PictureProps {
  /** Name of the picture, for its heading and its file. */
  readonly title: string;
  readonly controls?: ReactNode;
  /** The element that holds the drawing: an svg, with a canvas under it where there are many points. */
  readonly drawing: RefObject<HTMLElement | null>;
  readonly children: ReactNode;
}

/** A picture with its heading, its choices and its export. */
export function Picture({ title, controls, drawing, children }: PictureProps) {
  const save = (kind: 'svg' | 'png') => {
    if (drawing.current) void savePicture(drawing.current, title, kind);
  };
  return (
    <section className={styles['picture']} aria-label={title}>
      <div className={styles['heading']}>
        <h3>{title}</h3>
        <div className={styles['choices']}>{controls}</div>
        <DropdownMenu.Root modal={false}>
          <DropdownMenu.Trigger asChild>
            <Button look="quiet" aria-label={`Save the picture “${title}”`} title="Save picture">
              <Download aria-hidden size={14} />
            </Button>
          </DropdownMenu.Trigger>
          <DropdownMenu.Portal>
            <DropdownMenu.Content className={styles['menu']} align="end" sideOffset={2} collisionPadding={8}>
              <DropdownMenu.Item className={styles['item']} onSelect={() => save('svg')}>
                Save as SVG
              </DropdownMenu.Item>
              <DropdownMenu.Item className={styles['item']} onSelect={() => save('png')}>
                Save as PNG
              </DropdownMenu.Item>
            </DropdownMenu.Content>
          </DropdownMenu.Portal>
        </DropdownMenu.Root>
      </div>
      {children}
    </section>
  );
}
