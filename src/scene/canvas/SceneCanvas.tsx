import { useEffect, useRef } from 'react';
import { quietThree } from '../three-messages.ts';
import { startScene } from './live-scene.ts';
import styles from './scene-canvas.module.css';
import { VIEW_KEYS_SPOKEN } from './view-keys.ts';

quietThree();

interface SceneCanvasProps {
  /** Id of the text that says what is drawn. */
  readonly describedBy: string;
  /** Called when there is no WebGL to draw with. */
  readonly onUnavailable: () => void;
}

/** The WebGL drawing with the labels that belong to places in it. */
export function SceneCanvas({ describedBy, onUnavailable }: SceneCanvasProps) {
  const frame = useRef<HTMLDivElement>(null);
  const labels = useRef<HTMLDivElement>(null);
  const triad = useRef<SVGSVGElement>(null);
  const unavailable = useRef(onUnavailable);

  useEffect(() => {
    if (!frame.current || !labels.current || !triad.current) return undefined;
    const canvas = canvasFor(describedBy);
    // a canvas gives one context in its life, so every start has its own
    frame.current.append(canvas);
    const parts = { canvas, frame: frame.current, labels: labels.current, triad: triad.current };
    const stop = startScene(parts);
    if (!stop) unavailable.current();
    return () => {
      stop?.();
      canvas.remove();
    };
  }, [describedBy]);

  return (
    <div className={styles['scene']}>
      <div ref={frame} className={styles['frame']} />
      <div ref={labels} className={styles['labels']} aria-hidden="true" />
      <svg ref={triad} className={styles['triad']} viewBox="-36 -36 72 72" aria-hidden="true">
        {['X', 'Y', 'Z'].map((letter) => (
          <g key={letter}>
            <line x1="0" y1="0" x2="0" y2="0" />
            <text dominantBaseline="central" textAnchor="middle">
              {letter}
            </text>
          </g>
        ))}
      </svg>
    </div>
  );
}

function canvasFor(describedBy: string): HTMLCanvasElement {
  const canvas = document.createElement('canvas');
  canvas.tabIndex = 0;
  canvas.setAttribute('role', 'application');
  canvas.setAttribute('aria-roledescription', '3D drawing');
  canvas.setAttribute('aria-label', `3D view of the platform. ${VIEW_KEYS_SPOKEN}`);
  canvas.setAttribute('aria-describedby', describedBy);
  return canvas;
}
