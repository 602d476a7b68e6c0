import { Canvas, type RootState, useFrame, useThree } from '@react-three/fiber';
import { type RefObject, useEffect, useRef } from 'react';
import { quietThree } from '../three-messages.ts';
import { guardContext, makeRenderer } from './context-guard.ts';
import { CornerTriad } from './corner-triad.ts';
import { PinnedLabels } from './pinned-labels.ts';
import styles from './scene-canvas.module.css';
import { SceneDirector } from './scene-director.ts';
import { followViewKeys } from './view-key-listener.ts';
import { VIEW_KEYS_SPOKEN } from './view-keys.ts';

quietThree();

/** Device pixels drawn for one CSS pixel, at most; more only costs. */
const MOST_DENSITY = 2;

interface SceneCanvasProps {
  /** Id of the text that says what is drawn. */
  readonly describedBy: string;
  /** Called when there is no WebGL to draw with. */
  readonly onUnavailable: () => void;
}

/** The WebGL drawing with the labels that belong to places in it. */
export function SceneCanvas({ describedBy, onUnavailable }: SceneCanvasProps) {
  const labels = useRef<HTMLDivElement>(null);
  const triad = useRef<SVGSVGElement>(null);
  return (
    <div className={styles['scene']}>
      <Canvas
        frameloop="demand"
        dpr={[1, MOST_DENSITY]}
        flat
        gl={({ canvas }) => makeRenderer(canvas, onUnavailable)}
        onCreated={(state) => prepareCanvas(state, describedBy)}
        fallback={null}
      >
        <Direction labels={labels} triad={triad} />
      </Canvas>
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

function prepareCanvas({ gl }: RootState, describedBy: string): void {
  const canvas = gl.domElement;
  // asking for compile errors makes the page wait for the graphics card
  gl.debug.checkShaderErrors = import.meta.env.DEV;
  canvas.tabIndex = 0;
  canvas.setAttribute('role', 'application');
  canvas.setAttribute('aria-roledescription', '3D drawing');
  canvas.setAttribute('aria-label', `3D view of the platform. ${VIEW_KEYS_SPOKEN}`);
  canvas.setAttribute('aria-describedby', describedBy);
}

interface DirectionProps {
  readonly labels: RefObject<HTMLDivElement | null>;
  readonly triad: RefObject<SVGSVGElement | null>;
}

/** Runs the drawing inside the canvas. */
function Direction({ labels, triad }: DirectionProps) {
  const { gl, scene, invalidate, set, size } = useThree();
  const director = useRef<SceneDirector | null>(null);

  useEffect(() => {
    const box = labels.current;
    const corner = triad.current;
    if (!box || !corner) return;
    const made = new SceneDirector({
      renderer: gl,
      scene,
      invalidate: () => invalidate(),
      onCamera: (camera) => set({ camera }),
      labels: new PinnedLabels(box, {
        root: styles['warning'],
        mark: styles['mark'],
        leader: styles['leader'],
        text: styles['text'],
      }),
      triad: new CornerTriad(Array.from(corner.querySelectorAll('g'))),
    });
    director.current = made;
    const stops = [guardContext(gl.domElement, () => made.rebuild()), followViewKeys(gl.domElement, made.rig)];
    return () => {
      director.current = null;
      for (const stop of stops) stop();
      made.dispose();
    };
  }, [gl, scene, invalidate, set, labels, triad]);

  useEffect(() => director.current?.resize(size.width, size.height), [size]);

  useFrame(() => director.current?.frame(performance.now()));
  return null;
}
