import { useEffect, useState } from 'react';
import styles from './DropZone.module.css';
import { useDesk } from './desk-context.ts';

/** Takes a design or mesh file that is dropped anywhere on the page, and says so while one is held over it. */
export function DropZone() {
  const desk = useDesk();
  const [over, setOver] = useState(false);
  useEffect(() => {
    // enter and leave fire for every element on the way, so they are counted
    let depth = 0;
    const carriesFiles = (event: DragEvent) => event.dataTransfer?.types.includes('Files') ?? false;
    const onEnter = (event: DragEvent) => {
      if (!carriesFiles(event)) return;
      depth += 1;
      setOver(true);
    };
    const onLeave = (event: DragEvent) => {
      if (!carriesFiles(event)) return;
      depth = Math.max(0, depth - 1);
      if (depth === 0) setOver(false);
    };
    const onOver = (event: DragEvent) => {
      if (carriesFiles(event)) event.preventDefault();
    };
    const onDrop = (event: DragEvent) => {
      if (!carriesFiles(event)) return;
      event.preventDefault();
      depth = 0;
      setOver(false);
      const files = [...(event.dataTransfer?.files ?? [])];
      if (files.length > 0) void desk.takeDropped(files);
    };
    const listeners = [
      ['dragenter', onEnter],
      ['dragleave', onLeave],
      ['dragover', onOver],
      ['drop', onDrop],
    ] as const;
    for (const [type, listener] of listeners) window.addEventListener(type, listener);
    return () => {
      for (const [type, listener] of listeners) window.removeEventListener(type, listener);
    };
  }, [desk]);
  return over ? (
    <div className={styles['over']}>
      <p>Drop a design file (.json) to open it, or a mesh (.stl, .glb, .gltf) to make it the payload</p>
    </div>
  ) : null;
}
